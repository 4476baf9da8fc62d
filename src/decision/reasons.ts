import type { Facts } from '../findings/fact.ts';
import type { Effects, Rule } from '../rulebook/model.ts';
import type { Reason } from './answer-model.ts';
import { spokeFor } from './spoke.ts';
import type { TracedVerdicts } from './verdicts.ts';
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

/** Builds reasons from traces: each sentence names only findings that stand in the trace of its rule. */
export function reasonFor(
  rule: Rule,
  option: number | undefined,
  facts: Facts,
  verdicts: TracedVerdicts,
  words: Words,
  deciding: boolean,
): Reason {
  const trace = verdicts.trace(rule, option);
  const spoken = trace === undefined ? [] : spokeFor(trace);
  return {
    rule: rule.id,
    title: rule.title,
    stage: rule.group,
    effect: effectOf(rule),
    because: words.sentence(rule.because, facts),
    evidence: rule.evidence,
    source: rule.source,
    deciding,
    findings: spoken.map(({ test, truth }) => ({
      finding: test.subject === 'finding' ? test.id : test.key,
      value: words.fact(test, facts),
      test: truth === false ? `not ${test.comparison}` : test.comparison,
      threshold: words.threshold(test),
    })),
  };
}
