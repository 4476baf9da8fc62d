import type { Rule } from '../../rulebook/model.ts';
import type { Check, CheckResult, Diagnostic, RulebookModel } from '../rulebook-model.ts';
import { contradictions } from './contradictions.ts';
import { gaps } from './gaps.ts';
import { subsumed, truth, unknowable } from './subsumed.ts';
import { thresholds } from './thresholds.ts';

/** Dates that cannot be right, and rules that the day asked for leaves out. */
const dates: Check = ({ book, rules, asOf }) => ({
  remarks: [
    ...book.rules.flatMap(disagreeing),
    ...book.rules.filter((rule) => !rules.includes(rule)).map((rule) => notInForce(rule, asOf)),
  ],
  notCovered: [],
});

const notInForce = (rule: Rule, asOf: string): Diagnostic => ({
  code: 'not-in-force',
  severity: 'note',
  what:
    rule.since > asOf
      ? `"${rule.id}" comes into force on ${rule.since}, after ${asOf}`
      : `"${rule.id}" was retired on ${rule.until}`,
  rules: [rule],
  example: [],
});

/** Every kind of finding the analysis makes, gravest first. */
export const CHECKS: readonly Check[] = [
  dates,
  truth,
  contradictions,
  unknowable,
  subsumed,
  thresholds,
  gaps,
];

/** What is taken for granted throughout, said with every result. */
const TAKEN =
  'Findings are treated as independent of each other except where needless questions, governing fragility, seams and plan specifications say otherwise.';

export function checkRules(examined: RulebookModel): CheckResult {
  const all = CHECKS.map((check) => check(examined));
  return {
    remarks: all.flatMap(({ remarks }) => remarks),
    notCovered: [TAKEN, ...all.flatMap(({ notCovered }) => notCovered)],
  };
}

function disagreeing(rule: Rule): Diagnostic[] {
  const said = (what: string): Diagnostic => ({
    code: 'dates-disagree',
    severity: 'error',
    what,
    why: 'A rule holds from the day in "since" to the day before "until", and earlier wordings end when the next begins.',
    cure: 'Check both dates and correct the wrong one.',
    rules: [rule],
    example: [],
  });
  const ends = rule.was.map(({ until }) => until);
  return [
    ...(rule.until !== undefined && rule.until <= rule.since
      ? [said(`"${rule.id}" ends on ${rule.until}, not after it begins on ${rule.since}`)]
      : []),
    ...(ends.some((end) => end > rule.since && end !== rule.until)
      ? [said(`"${rule.id}" holds since ${rule.since}, but an earlier wording ends later, on ${ends.at(-1)}`)]
      : []),
    ...(ends.some((end, index) => end < (ends[index - 1] ?? end))
      ? [said(`The earlier wordings of "${rule.id}" do not stand in the order of their dates`)]
      : []),
  ];
}
