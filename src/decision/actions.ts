import { ACTIONS, type Action } from '../casebook/scales.ts';
import { type Facts, widest } from '../findings/fact.ts';
import { familyFacts, unitFacts } from '../findings/group-facts.ts';
import { isPlaced } from '../findings/survey-groups.ts';
import type { SurveyedQuilt, UnitGroup } from '../findings/surveyed.ts';
import type { GroupAction } from '../plans/model.ts';
import { oncePer } from '../quantities/once.ts';
import { judgeRule } from '../rulebook/fast.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import { Force } from './force.ts';

/** Facts of one group: its state, and its family's; where nobody noted which family, what holds of all of them. */
export const groupFacts = (quilt: SurveyedQuilt, group: UnitGroup): Facts => {
  const letters = group.family === undefined ? Object.keys(quilt.families) : [group.family];
  const families = letters.map((letter) => familyFacts(quilt, letter));
  const [first = familyFacts(quilt, undefined), ...rest] = families;
  return { ...unitFacts(group), ...rest.reduce(widest, first) };
};

/** How a unit rule that is undecided on what is known is read: as not asking, or as asking. */
export type OpenRules = 'do not ask' | 'ask';

/** A group of units and what the rules say of it. */
interface JudgedGroup {
  readonly group: UnitGroup;
  /** Undefined where nobody may touch it. */
  readonly verdicts: ReadonlyMap<Rule, Truth> | undefined;
}

/** Groups of units judged once, from which it is chosen what is done with each. */
export interface JudgedGroups {
  readonly rules: readonly Rule[];
  readonly groups: readonly JudgedGroup[];
  /** Whether any rule is undecided on what is known, so that the two ways to read it may differ. */
  readonly open: boolean;
}

/** Puts the rules of units to every group; units that must stay are split from the groups they stand in. */
export function judgeGroups(
  quilt: SurveyedQuilt,
  mustStay: readonly string[],
  rulebook: Rulebook,
  facts: Facts,
): JudgedGroups {
  const rules = unitRules(rulebook);
  let open = false;
  const groups = apartFrom(mustStay, quilt.groups).flatMap(({ group, untouchable }): JudgedGroup[] => {
    if (group.most === 0) return [];
    if (untouchable) return [{ group, verdicts: undefined }];
    // Laid over the facts of the quilt: there are a hundred and more, and most groups are asked about a few.
    const here: Facts = Object.assign(Object.create(facts), groupFacts(quilt, group));
    const verdicts = new Map(rules.map((rule) => [rule, judgeRule(rule, here)]));
    open ||= [...verdicts.values()].includes(undefined);
    return [{ group, verdicts }];
  });
  return { rules, groups, open };
}

/**
 * What is done with each group of units. Unit rules give way to each other by `yields to`; where two that are left
 * ask for different things, the one that does more holds (see ACTIONS). Units that must stay are kept. A rule left
 * undecided does not ask, and no rule gives way to it; read the other way, it shows what else might be done.
 */
export const chooseActions = (
  { rules, groups }: JudgedGroups,
  open: OpenRules = 'do not ask',
): GroupAction[] =>
  groups.map(({ group, verdicts }) => {
    if (verdicts === undefined) return { group, action: 'keep', rules: [] };
    const asks = (rule: Rule): boolean => verdicts.get(rule) ?? open === 'ask';
    const force = new Force(rules, { quilt: asks, plan: () => false, anyPlan: asks });
    const asking = rules.filter((rule) => asks(rule) && force.of(rule, undefined) === true);
    const action = strongest(asking);
    return {
      group,
      action,
      rules: asking.filter((rule) => rule.effects.action === action).map((rule) => rule.id),
    };
  });

/** Rules that say what is done with a unit. */
export const unitRules = oncePer((rulebook: Rulebook): Rule[] =>
  rulebook.rules.filter((rule) => rule.group === 'units'),
);

const strongest = (rules: readonly Rule[]): Action =>
  rules.reduce<Action>((action, rule) => {
    const other = (rule.effects.action ?? 'keep') as Action;
    return ACTIONS.indexOf(other) > ACTIONS.indexOf(action) ? other : action;
  }, 'keep');

/** Some places of a group. Where its places or its fabrics are supposed, how much of them lies there is open as well. */
function partOf(group: UnitGroup, where: readonly string[]): UnitGroup {
  const share = group.count === 0 ? 0 : (group.share * where.length) / group.count;
  const bounds = isPlaced(group) ? { among: where, least: share, most: share } : { least: 0 };
  const cloth = group.cloth?.map((fabric) => ({
    ...fabric,
    share: (fabric.share * share) / group.share,
    least: 0,
    most: Math.min(fabric.most, share),
  }));
  return { ...group, where, count: where.length, share, ...bounds, ...(cloth && { cloth }) };
}

/** Splits units nobody may touch from the groups they stand in. */
function apartFrom(
  mustStay: readonly string[],
  groups: readonly UnitGroup[],
): { group: UnitGroup; untouchable: boolean }[] {
  return groups.flatMap((group) => {
    const staying = group.where?.filter((at) => mustStay.includes(at)) ?? [];
    if (staying.length === 0 || group.where === undefined) return [{ group, untouchable: false }];
    const others = group.where.filter((at) => !mustStay.includes(at));
    return [
      { group: partOf(group, staying), untouchable: true },
      { group: partOf(group, others), untouchable: false },
    ];
  });
}
