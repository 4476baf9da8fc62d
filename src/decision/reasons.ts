import type { Facts } from '../findings/fact.ts';
import type { GroupAction } from '../plans/model.ts';
import { evaluateRule, type Trace, traceRule } from '../rulebook/evaluate.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Effects, Rule, Test } from '../rulebook/model.ts';
import { type Alternative, shownAgainst } from './alternatives.ts';
import { type OpenFinding, type Reason, sameRecommendation } from './answer-model.ts';
import { type Outcome, recommendedOption, type Settled, settle } from './outcome.ts';
import { type ActiveRules, traceOf } from './precedence.ts';
import { groupFacts } from './quilt-facts.ts';
import type { PlanOutcome } from './ranking.ts';
import type { Option, Situation } from './situation.ts';
import type { Ballot } from './votes.ts';
import type { Words } from './wording.ts';

/** What a rule did, in one word for the record. */
const EFFECT_WORDS: readonly (readonly [keyof Effects, string])[] = [
  ['stand', 'sets the standing'],
  ['refuseUse', 'refuses a use'],
  ['ruleOut', 'rules out'],
  ['callFor', 'calls for'],
  ['prefer', 'prefers'],
  ['avoid', 'avoids'],
  ['action', 'decides what is done with a unit'],
];

const effectOf = (rule: Rule): string =>
  EFFECT_WORDS.find(([name]) => rule.effects[name] !== undefined)?.[1] ?? 'advises';

/** As many reasons as a person keeps in mind. */
const REASONS_SHOWN = 3;

/** The reasons to give first: each sets this answer apart from another, or no answer but this could stand without it. */
export const mainReasons = (reasons: readonly Reason[]): readonly Reason[] =>
  reasons.filter(({ for_answer }) => for_answer).slice(0, REASONS_SHOWN);

/** Reasons that others lack, told apart by the rule they come from. */
export const reasonsMissing = (from: readonly Reason[], to: readonly Reason[]): Reason[] =>
  from.filter(({ rule }) => !to.some((reason) => reason.rule === rule));

/** A rule and the plan it is quoted for; undefined where it is quoted for the quilt. */
interface QuotedRule {
  readonly rule: Rule;
  readonly option: number | undefined;
}

/** Builds a reason from a rule's trace: it names only findings that stand in that trace. */
export function reasonFor({ rule, option }: QuotedRule, situation: Situation, words: Words): Reason {
  const facts = (option === undefined ? undefined : situation.options[option]?.facts) ?? situation.facts;
  return reason(rule, traceOf(rule, situation, option), facts, words);
}

/** Why units are treated as they are in a plan: one reason a rule, quoted for the first group it decided. */
export function unitReasons(
  situation: Situation,
  knowledge: Knowledge,
  words: Words,
  option: Option | undefined,
): Reason[] {
  const actions: readonly GroupAction[] = option?.plan.actions ?? [];
  return knowledge.rulebook.rules
    .filter((rule) => rule.group === 'units')
    .flatMap((rule) => {
      const decided = actions.find((each) => each.rules.includes(rule.id));
      if (decided === undefined) return [];
      // Of several marks the one the rule speaks of is quoted.
      const marked = groupFacts(situation.quilt, decided.group).map((own) => ({
        ...situation.facts,
        ...own,
      }));
      const facts = marked.find((each) => evaluateRule(rule, each) === true) ?? marked[0];
      return facts === undefined ? [] : [reason(rule, traceRule(rule, facts), facts, words)];
    });
}

function reason(rule: Rule, trace: Trace, facts: Facts, words: Words): Reason {
  return {
    rule: rule.id,
    title: rule.title,
    stage: rule.group,
    effect: effectOf(rule),
    because: words.sentence(rule.because, facts),
    evidence: rule.evidence,
    source: rule.source,
    deciding: false,
    for_answer: false,
    findings: decisiveTests(trace).map(({ test, truth }) => ({
      finding: test.subject === 'finding' ? test.id : test.key,
      value: words.fact(test, facts),
      test: truth === false ? `not ${test.comparison}` : test.comparison,
      threshold: words.threshold(test),
    })),
  };
}

/** A rule that had a part in the answer, and the plan its sentence is filled from. */
interface WeighedReason {
  readonly rule: Rule;
  readonly option: number | undefined;
  /** True where standing or treatment would be another without it. */
  readonly deciding: boolean;
  /** True where it decides, sets the standing, or stands against another treatment in the order that is shown. */
  readonly forAnswer: boolean;
}

/**
 * Reasons with the most telling first: those that alone decide; those that set a standing; those by which another
 * treatment is shown to come after, those for the recommendation before those against the other; then the rest.
 */
export function weighReasons(settled: Settled, all: readonly Alternative[]): WeighedReason[] {
  const { situation, outcome, active, ballot, rules } = settled;
  const ours = recommendedOption(settled)?.index;
  const others = all.filter(({ outcome: each }) => each !== 'recommended');
  const shown = new Set(others.flatMap(shownAgainst).map(({ rule }) => rule));
  const parts = rulesWithAPart(rules, active, outcome).map((rule, order) => {
    const deciding = isDeciding(rule, situation, ballot, outcome);
    const stands = outcome.standingRules.includes(rule) || rule.effects.refuseUse !== undefined;
    return {
      rule,
      order,
      option: optionFor(rule, outcome, ours),
      deciding,
      forAnswer: deciding || stands || shown.has(rule),
      standing: outcome.standingRules.includes(rule)
        ? outcome.standingRules.indexOf(rule)
        : outcome.standingRules.length,
      supports: speaksFor(rule, ours === undefined ? undefined : outcome.planOutcomes[ours]),
      apart: others.filter(({ planOutcome }) => !speaksFor(rule, planOutcome)).length,
    };
  });
  return parts.sort(
    (a, b) =>
      Number(b.deciding) - Number(a.deciding) ||
      Number(b.forAnswer) - Number(a.forAnswer) ||
      a.standing - b.standing ||
      Number(b.supports) - Number(a.supports) ||
      b.apart - a.apart ||
      a.order - b.order,
  );
}

/** Whether a rule prefers a plan, or calls for what the plan has; a rule that parts no treatment from another says little. */
const speaksFor = (rule: Rule, planOutcome: PlanOutcome | undefined): boolean =>
  planOutcome !== undefined &&
  (planOutcome.prefers.includes(rule) ||
    (rule.effects.callFor !== undefined && !planOutcome.removedBy.includes(rule)));

/** The plan a rule is quoted for: ours where it speaks of ours, else the first plan it removed or is avoided for. */
function optionFor(rule: Rule, outcome: Outcome, ours: number | undefined): number | undefined {
  const speaks = (option: number): boolean => {
    const planOutcome = outcome.planOutcomes[option];
    return (
      planOutcome !== undefined &&
      [...planOutcome.removedBy, ...planOutcome.prefers, ...planOutcome.avoids].includes(rule)
    );
  };
  if (!rule.perPlan) return ours;
  if (ours !== undefined && speaks(ours)) return ours;
  const other = outcome.planOutcomes.findIndex((_, option) => speaks(option));
  return other < 0 ? ours : other;
}

/**
 * Rules that had a part in the answer: that set a standing, refused a use, removed a plan, or weighed for the
 * recommendation or against another plan. In stage order.
 */
export function rulesWithAPart(rules: readonly Rule[], active: ActiveRules, outcome: Outcome): Rule[] {
  const recommended =
    outcome.treatment === null || outcome.best === undefined ? undefined : outcome.planOutcomes[outcome.best];
  const removed = new Set(outcome.planOutcomes.flatMap((planOutcome) => planOutcome.removedBy));
  const avoided = new Set(
    outcome.planOutcomes
      .filter((planOutcome) => planOutcome !== recommended)
      .flatMap((planOutcome) => planOutcome.avoids),
  );
  const preferred = new Set(recommended?.prefers);
  const standing = new Set(outcome.standingRules);
  const declined = outcome.treatment === null && !outcome.nothingLeft;
  return rules.filter((rule) => {
    if (standing.has(rule)) return true;
    if (rule.effects.refuseUse !== undefined) return active.of(rule, undefined) === true;
    if (declined) return false;
    return removed.has(rule) || preferred.has(rule) || avoided.has(rule);
  });
}

/** Whether standing or treatment would be another without this rule, found by taking it away and settling again. */
export const isDeciding = (rule: Rule, situation: Situation, ballot: Ballot, outcome: Outcome): boolean =>
  !sameRecommendation(
    outcome,
    settle(situation, ballot, () => false, rule),
  );

/** A test that bore on a verdict, and how it came out. */
interface DecisiveTest {
  readonly test: Test;
  readonly truth: Truth;
}

/**
 * The tests a verdict rests on. For a true rule: every test of an "all", the true ones of an "any". For a false one
 * the mirror of that; "not" turns the question round, so that a finding that is absent can speak too.
 */
function decisiveTests(trace: Trace): DecisiveTest[] {
  if ('test' in trace) return [{ test: trace.test, truth: trace.truth }];
  if ('not' in trace) return decisiveTests(trace.not);
  const parts = 'all' in trace ? trace.all : trace.any;
  const bearing = parts.filter((part) => part.truth === trace.truth);
  return bearing.flatMap(decisiveTests);
}

/** Tests that leave a trace undecided: what would have to be found out. */
export function undecidedTests(trace: Trace): Test[] {
  if (trace.truth !== undefined) return [];
  if ('test' in trace) return [trace.test];
  if ('not' in trace) return undecidedTests(trace.not);
  return ('all' in trace ? trace.all : trace.any).flatMap(undecidedTests);
}

/** The findings that rules left open wait for, each once, with those rules. */
export function openFindings(situation: Situation, open: readonly Rule[], words: Words): OpenFinding[] {
  const found = new Map<string, { label: string; rules: Set<string> }>();
  for (const rule of open) {
    const options = rule.perPlan ? situation.options.map((_, option) => option) : [undefined];
    for (const test of options.flatMap((option) => undecidedTests(traceOf(rule, situation, option)))) {
      const entry = found.get(test.key) ?? { label: words.subject(test).label, rules: new Set<string>() };
      entry.rules.add(rule.id);
      found.set(test.key, entry);
    }
  }
  return [...found].map(([key, { label, rules }]) => ({
    finding: key.replace(/^finding\./, ''),
    label,
    rules: [...rules],
  }));
}
