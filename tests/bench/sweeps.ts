// The questions put to an answer (what would change it, what to check next, how firm it is), over the worked cases, on
// one core: each case in its turn, so that all but the first run warm, and the first as a start would have it.
import { readdirSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { openCase } from '../../src/cli/open-case.ts';
import { openStudio } from '../../src/cli/studio.ts';
import { contextOf } from '../../src/decision/context.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { Bearings } from '../../src/decision/questions/bearing.ts';

const AS_OF = '2026-11-27';
const studio = await openStudio({ rules: 'rules' });
const { knowledge } = studio;
const context = contextOf(studio, AS_OF);
const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
const took = async (work: () => unknown): Promise<number> => {
  const start = performance.now();
  await work();
  return performance.now() - start;
};

const sweeps: number[] = [];
const bearings: number[] = [];
const plans: number[] = [];
const askable = new Set(knowledge.vocabulary.findings.keys());
for (const name of readdirSync('cases').filter((each) => each.endsWith('.yaml'))) {
  const { case: quiltCase } = await openCase(`cases/${name}`, studio);
  plans.push(evaluate(quiltCase, context).situation.options.length);
  sweeps.push(await took(() => question(evaluate(quiltCase, context), context)));
  bearings.push(await took(() => new Bearings(context).on(quiltCase, askable)));
}
const say = (what: string, values: readonly number[]): void =>
  console.log(
    `${what}: median ${median(values).toFixed(0)} ms, first ${(values[0] ?? 0).toFixed(0)}, most ${Math.max(...values).toFixed(0)}`,
  );
console.log(
  `${knowledge.rulebook.rules.length} rules, ${median(plans)} plans (median of ${plans.length} cases)`,
);
say('all questions put to an answer', sweeps);
say('what to ask next', bearings);
