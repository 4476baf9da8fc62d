import type { Rule } from '../rulebook/model.ts';
import type { Ballot } from './ballot.ts';
import type { Force } from './force.ts';
import { type Outcome, settle } from './settle.ts';
import type { Situation } from './situation.ts';
import { sameVerdict } from './verdict.ts';

/**
 * Rules that had a part in the answer: that set a standing, refused a use, removed a plan, or weighed for the
 * recommendation or against another plan. In stage order.
 */
export function rulesWithAPart(rules: readonly Rule[], force: Force, outcome: Outcome): Rule[] {
  const recommended =
    outcome.treatment === null || outcome.best === undefined ? undefined : outcome.fates[outcome.best];
  const removed = new Set(outcome.fates.flatMap((fate) => fate.removedBy));
  const avoided = new Set(
    outcome.fates.filter((fate) => fate !== recommended).flatMap((fate) => fate.avoids),
  );
  const preferred = new Set(recommended?.prefers);
  const standing = new Set(outcome.standingRules);
  const declined = outcome.treatment === null && !outcome.nothingLeft;
  return rules.filter((rule) => {
    if (standing.has(rule)) return true;
    if (rule.effects.refuseUse !== undefined) return force.of(rule, undefined) === true;
    if (declined) return false;
    return removed.has(rule) || preferred.has(rule) || avoided.has(rule);
  });
}

/** Whether standing or treatment would be another without this rule, found by taking it away and settling again. */
export const isDeciding = (rule: Rule, situation: Situation, ballot: Ballot, outcome: Outcome): boolean =>
  !sameVerdict(
    outcome,
    settle(situation, ballot, () => false, rule),
  );
