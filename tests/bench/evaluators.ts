// The fast evaluator beside json-rules-engine and zen-engine: the shipped rules of the stages, the same findings, the
// same answers, one core. All are made ready beforehand; json-rules-engine and zen-engine are taken in every form we
// know of, and the ratio that counts is to the quickest of each. Rounds go by turns, so that a busy machine is busy for
// all. Facts are all known single values here, because that is all the other two can hold.
import { performance } from 'node:perf_hooks';
import { Engine } from 'json-rules-engine';
import { stageRules } from '../../src/decision/precedence.ts';
import { COMPARISON_NAMES, certainly } from '../../src/rulebook/comparisons.ts';
import { compileForEngine, RulesRun } from '../../src/rulebook/engine.ts';
import { evaluateRule, traceRule } from '../../src/rulebook/evaluate.ts';
import { openStudio } from '../../src/store/studio.ts';
import { situationsFor, type Values } from './evaluators/situations.ts';
import { zenWays } from './evaluators/zen.ts';

/** One way to judge all rules on one set of facts: in the order of the rules, whether each holds. */
export interface Way {
  readonly name: string;
  readonly of: 'us' | 'json-rules-engine' | 'zen-engine';
  judge(facts: Values): readonly boolean[] | Promise<readonly boolean[]>;
}

const AIMS = { 'json-rules-engine': 20, 'zen-engine': 5 } as const;
const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 9);
const ROUND_MS = 250;

const { knowledge } = await openStudio({ rules: 'rules' });
const rules = stageRules(knowledge.rulebook);
const situations = situationsFor(rules, 200);

/** As sweeps judge: the verdict alone. */
const fast: Way = {
  name: 'fast evaluator, verdicts as sweeps ask for them',
  of: 'us',
  judge: (facts) => rules.map((rule) => evaluateRule(rule, facts) === true),
};
const traced: Way = {
  name: 'fast evaluator, full three-valued trace',
  of: 'us',
  judge: (facts) => rules.map((rule) => traceRule(rule, facts).truth === true),
};

const record = new RulesRun(rules);
/** One engine for all runs: theirs at its quickest, its booleans read as they are, no trace of ours folded from them. */
const engine = new Engine([], { allowUndefinedFacts: true });
for (const name of COMPARISON_NAMES) engine.addOperator(name, certainly.bind(undefined, name) as never);
for (const { id, when } of rules)
  engine.addRule({ conditions: { all: [compileForEngine(when)] }, event: { type: id }, name: id });
const others: readonly Way[] = [
  {
    name: 'json-rules-engine, one engine kept, its booleans alone',
    of: 'json-rules-engine',
    judge: async (facts) => {
      const { events } = await engine.run(facts);
      const held = new Set(events.map(({ type }) => type));
      return rules.map(({ id }) => held.has(id));
    },
  },
  {
    name: 'json-rules-engine, as the decision of record runs it',
    of: 'json-rules-engine',
    judge: async (facts) => {
      const traces = await record.run(facts);
      return rules.map(({ id }) => traces.get(id)?.truth === true);
    },
  },
  ...(await zenWays(rules)),
];

/** Runs a second for one round. */
const speed = async (way: Way): Promise<number> => {
  const start = performance.now();
  let runs = 0;
  while (performance.now() - start < ROUND_MS) {
    const facts = situations[runs % situations.length];
    if (facts !== undefined) await way.judge(facts);
    runs += 1;
  }
  return (1000 * runs) / (performance.now() - start);
};
const median = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[list.length >> 1] ?? 0;

let [told, held] = [0, 0];
const ways = [fast, traced, ...others];
for (const facts of situations) {
  const expected = await fast.judge(facts);
  told += expected.length;
  held += expected.filter(Boolean).length;
  for (const way of others) {
    const got = await way.judge(facts);
    const wrong = rules.find((_, at) => got[at] !== expected[at]);
    if (wrong !== undefined || got.length !== expected.length)
      throw new Error(`${way.name} answers otherwise on ${wrong?.id}`);
  }
}
for (const way of ways) await speed(way);
const rounds: Map<Way, number>[] = [];
for (let round = 0; round < ROUNDS; round += 1) {
  const speeds = new Map<Way, number>();
  for (const way of ways) speeds.set(way, await speed(way));
  rounds.push(speeds);
}

const tests = rules.reduce((sum, rule) => sum + rule.tests.length, 0);
console.log(
  `${rules.length} rules of ${tests} tests, ${situations.length} sets of findings; ${ways.length} ways gave the same ${told} answers, ${held} of them yes`,
);
const medianOf = (of: (speeds: Map<Way, number>) => number): number => median(rounds.map(of));
/** Each round has a ratio of its own; what is said is their median. */
const ratioTo = (way: Way): number =>
  medianOf((speeds) => (speeds.get(fast) ?? 0) / (speeds.get(way) ?? Number.POSITIVE_INFINITY));
for (const way of ways) {
  const ratio = way === fast ? '' : `; the fast evaluator ${ratioTo(way).toFixed(1)} ×`;
  console.log(`${way.name}: ${medianOf((speeds) => speeds.get(way) ?? 0).toFixed(0)} a second${ratio}`);
}
for (const [of, aim] of Object.entries(AIMS)) {
  const ratios = others.filter((way) => way.of === of).map(ratioTo);
  if (ratios.length === 0) continue;
  console.log(
    `fast evaluator, ${Math.min(...ratios).toFixed(1)} × the quickest form of ${of} (aimed at ${aim} ×)`,
  );
}
