import type { QuiltCase } from '../casebook/model.ts';
import { ACTIONS, type Action, USES, type Use } from '../casebook/scales.ts';
import { foundFacts, plannedFacts } from '../findings/as-found.ts';
import { type Facts, widest } from '../findings/fact.ts';
import { familyFacts, unitFacts } from '../findings/fragility-facts.ts';
import { latestLook } from '../findings/latest-look.ts';
import { isPlaced } from '../findings/survey-groups.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import type { SurveyedQuilt, UnitGroup } from '../findings/surveyed.ts';
import type { GroupAction } from '../plans/model.ts';
import { memo } from '../quantities/memo.ts';
import { evaluateRule } from '../rulebook/evaluate.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import type { DecisionContext } from './context.ts';
import { ActiveRules } from './precedence.ts';

/** A case read against the vocabulary: everything known of the quilt itself, before there are plans. */
export interface QuiltFacts {
  /** The case as its latest looks leave it. */
  readonly latest: QuiltCase;
  readonly quilt: SurveyedQuilt;
  /** Facts as the client asked, for rules that refuse a use. */
  readonly asked: Facts;
  /** Facts every other rule reads: a refused use is read as storage. */
  readonly found: Facts;
  readonly planned: Facts;
  readonly use: Use | undefined;
  readonly refusedUses: readonly Use[];
  readonly actions: readonly GroupAction[];
}

/** `treatedFor` is a harder use whose rules of units are followed; the use at hand where it is left out. */
export function deriveFacts(quiltCase: QuiltCase, context: DecisionContext, treatedFor?: Use): QuiltFacts {
  const { knowledge, practice } = context;
  const { vocabulary, figures, rulebook } = knowledge;
  const look = latestLook(quiltCase);
  const { case: latest } = look;
  const quilt = surveyQuilt(look, figures);
  const asked: Facts = {
    ...foundFacts(look, quilt, vocabulary, figures),
    'finding.washing_practice': practice.washing,
  };
  const refusedUses = refused(asked, rulebook);
  const wanted = latest.client.intended_use;
  const use = wanted !== undefined && refusedUses.includes(wanted) ? 'storage' : wanted;
  const found: Facts =
    asked['finding.intended_use'] === use ? asked : { ...asked, 'finding.intended_use': use };
  const treated = unitsTreated({ latest, quilt, found }, knowledge, treatedFor);
  return { latest, quilt, asked, found, use, refusedUses, ...treated };
}

/** A quilt as read, before anything is done with its units. */
type AsRead = Pick<QuiltFacts, 'latest' | 'quilt' | 'found'>;

/** What is done with the units of a quilt, for its own use or as for a harder one. */
export function unitsTreated(
  { latest, quilt, found }: AsRead,
  knowledge: Knowledge,
  treatedFor?: Use,
): Treating {
  const mustStay = latest.quilt.must_stay;
  if (treatedFor === undefined)
    return treat({ quilt, mustStay, knowledge, ...readByUnits(knowledge, found) });
  const asIf = readByUnits(knowledge, { ...found, 'finding.intended_use': treatedFor });
  const harder = treat({ quilt, mustStay, knowledge, ...asIf });
  // Rules that speak of the harder use are followed here, and not quoted: what they say is not true of this one.
  return { ...harder, actions: harder.actions.map((each) => ({ ...each, rules: [] })) };
}

/** The facts that rules of units read: variants of a quilt that differ in others are treated alike. */
const readByUnits = ({ rulebook }: Knowledge, found: Facts): Facts =>
  Object.fromEntries(
    unitRules(rulebook).flatMap(({ tests }) => tests.map(({ key }) => [key, found[key]] as const)),
  );

/** What is done with each group of units, and what then is known of the quilt. */
type Treating = Pick<QuiltFacts, 'actions' | 'planned'>;

interface ToTreat {
  readonly quilt: SurveyedQuilt;
  readonly mustStay: readonly string[] | undefined;
  readonly knowledge: Knowledge;
}

// Without it the questions of three cases take 29 % more processor time.
const treat = memo(32, ({ quilt, mustStay, knowledge, ...found }: ToTreat): Treating => {
  const { vocabulary, figures, rulebook } = knowledge;
  const judged = evaluateGroups(quilt, mustStay ?? [], rulebook, found);
  const actions = chooseActions(judged);
  const facts = plannedFacts(quilt, actions, vocabulary, figures);
  const likely = actions.filter(({ group }) => group.count > 0);
  if (!judged.open) return { actions: likely, planned: facts };
  const more = chooseActions(judged, 'ask');
  const decided = more.every(({ action }, index) => action === actions[index]?.action);
  // What is not known may call for more to be done: what then becomes of the quilt is known within bounds.
  const planned = decided ? facts : widest(facts, plannedFacts(quilt, more, vocabulary, figures));
  return { actions: likely, planned };
});

/** Uses that a rule refuses on what is known. */
function refused(asked: Facts, rulebook: Rulebook): Use[] {
  const uses = refusingRules(rulebook)
    .filter((rule) => evaluateRule(rule, asked) === true)
    .map((rule) => rule.effects.refuseUse);
  return USES.filter((use) => uses.includes(use));
}

const refusingRules = ({ rules }: Rulebook): Rule[] =>
  rules.filter((rule) => rule.effects.refuseUse !== undefined);

/** Facts of one group: its state, and its family's; where nobody noted which family, what holds of all of them. */
export const groupFacts = (quilt: SurveyedQuilt, group: UnitGroup): Facts => {
  const letters = group.family === undefined ? Object.keys(quilt.families) : [group.family];
  const families = letters.map((letter) => familyFacts(quilt, letter));
  const [first = familyFacts(quilt, undefined), ...rest] = families;
  return { ...unitFacts(group), ...rest.reduce(widest, first) };
};

/** How a unit rule that is undecided on what is known is read: as not asking, or as asking. */
type OpenRules = 'do not ask' | 'ask';

/** A group of units and what the rules say of it. */
interface JudgedGroup {
  readonly group: UnitGroup;
  /** Undefined where nobody may touch it. */
  readonly truths: ReadonlyMap<Rule, Truth> | undefined;
}

/** Groups of units judged once, from which it is chosen what is done with each. */
interface JudgedGroups {
  readonly rules: readonly Rule[];
  readonly groups: readonly JudgedGroup[];
  /** Whether any rule is undecided on what is known, so that the two ways to read it may differ. */
  readonly open: boolean;
}

/** Puts the rules of units to every group; units that must stay are split from the groups they stand in. */
export function evaluateGroups(
  quilt: SurveyedQuilt,
  mustStay: readonly string[],
  rulebook: Rulebook,
  facts: Facts,
): JudgedGroups {
  const rules = unitRules(rulebook);
  let open = false;
  const groups = apartFrom(mustStay, quilt.groups).flatMap(({ group, untouchable }): JudgedGroup[] => {
    if (group.most === 0) return [];
    if (untouchable) return [{ group, truths: undefined }];
    // Laid over the facts of the quilt: there are a hundred and more, and most groups are asked about a few.
    const here: Facts = Object.assign(Object.create(facts), groupFacts(quilt, group));
    const truths = new Map(rules.map((rule) => [rule, evaluateRule(rule, here)]));
    open ||= [...truths.values()].includes(undefined);
    return [{ group, truths }];
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
  groups.map(({ group, truths }) => {
    if (truths === undefined) return { group, action: 'keep', rules: [] };
    const asks = (rule: Rule): boolean => truths.get(rule) ?? open === 'ask';
    const active = new ActiveRules(rules, { quilt: asks, plan: () => false, anyPlan: asks });
    const asking = rules.filter((rule) => asks(rule) && active.of(rule, undefined) === true);
    const action = strongest(asking);
    return {
      group,
      action,
      rules: asking.filter((rule) => rule.effects.action === action).map((rule) => rule.id),
    };
  });

/** Rules that say what is done with a unit. */
export const unitRules = ({ rules }: Rulebook): Rule[] => rules.filter((rule) => rule.group === 'units');

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
