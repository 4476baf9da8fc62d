import type { Rule } from '../rulebook/model.ts';
import type { Force } from './force.ts';
import { type Outcome, settle } from './settle.ts';
import type { Situation } from './situation.ts';

const same = (a: Outcome, b: Outcome): boolean => a.standing === b.standing && a.treatment === b.treatment;

/** Rules that what is not known leaves undecided, for the quilt or for some plan. */
export const undecidedRules = (situation: Situation, rules: readonly Rule[], force: Force): Rule[] =>
  rules.filter((rule) =>
    rule.perPlan || plansMatter(rule)
      ? situation.options.some((_, option) => force.of(rule, option) === undefined)
      : force.of(rule, undefined) === undefined,
  );

const plansMatter = (rule: Rule): boolean => rule.yieldsTo.length > 0;

/**
 * Undecided rules that would change standing or treatment if they came out true, one at a time; and all of them
 * where only together they would. Each is tried on the outcome itself.
 */
export function opening(
  situation: Situation,
  rules: readonly Rule[],
  force: Force,
  outcome: Outcome,
): Rule[] {
  const open = undecidedRules(situation, rules, force);
  const alone = open.filter(
    (rule) =>
      !same(
        outcome,
        settle(situation, rules, force, (other) => other === rule),
      ),
  );
  if (alone.length > 0 || open.length < 2) return alone;
  return same(
    outcome,
    settle(situation, rules, force, () => true),
  )
    ? []
    : open;
}
