import { groupFacts } from '../decision/actions.ts';
import type { Situation } from '../decision/situation.ts';
import type { Facts } from '../findings/fact.ts';
import type { Rule } from '../rulebook/model.ts';

/**
 * The sets of facts a rule is judged on in one case: one for each group of units, one for each plan, or one for the
 * quilt; a rule that refuses a use looks at what was asked.
 */
export function readingsOf(rule: Rule, situation: Situation): readonly Facts[] {
  if (rule.group === 'units') {
    return situation.quilt.groups.map((group) => ({
      ...situation.facts,
      ...groupFacts(situation.quilt, group),
    }));
  }
  if (rule.perPlan) return situation.options.map(({ facts }) => facts);
  return [rule.effects.refuseUse === undefined ? situation.facts : situation.asked];
}
