import type { Facts } from '../findings/fact.ts';
import type { GroupAction } from '../plans/model.ts';
import { traceRule } from '../rulebook/fast.ts';
import type { Trace } from '../rulebook/kleene.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Effects, Rule } from '../rulebook/model.ts';
import { groupFacts } from './actions.ts';
import type { Reason } from './answer-model.ts';
import type { Option, Situation } from './situation.ts';
import { spokeFor } from './spoke.ts';
import { traceOf } from './verdicts.ts';
import type { Words } from './words.ts';

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

export const effectOf = (rule: Rule): string =>
  EFFECT_WORDS.find(([name]) => rule.effects[name] !== undefined)?.[1] ?? 'advises';

/** Reasons that others lack, told apart by the rule they come from. */
export const reasonsMissing = (from: readonly Reason[], to: readonly Reason[]): Reason[] =>
  from.filter(({ rule }) => !to.some((reason) => reason.rule === rule));

/** A rule and the plan it is quoted for; undefined where it is quoted for the quilt. */
interface QuotedRule {
  readonly rule: Rule;
  readonly option: number | undefined;
}

/** Builds a reason from a rule's trace: it names only findings that stand in that trace. */
export function reasonFor(
  { rule, option }: QuotedRule,
  situation: Situation,
  words: Words,
  deciding: boolean,
): Reason {
  const facts = (option === undefined ? undefined : situation.options[option]?.facts) ?? situation.facts;
  return { ...reason(rule, traceOf(rule, situation, option), facts, words), deciding };
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
      const facts = { ...situation.facts, ...groupFacts(situation.quilt, decided.group) };
      return [reason(rule, traceRule(rule, facts), facts, words)];
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
    findings: spokeFor(trace).map(({ test, truth }) => ({
      finding: test.subject === 'finding' ? test.id : test.key,
      value: words.fact(test, facts),
      test: truth === false ? `not ${test.comparison}` : test.comparison,
      threshold: words.threshold(test),
    })),
  };
}
