import type { QuiltCase } from '../casebook/model.ts';
import { ACTIONS, type Action, USES, type Use } from '../casebook/scales.ts';
import { foundFacts, plannedFacts } from '../findings/as-found.ts';
import { type Facts, widest } from '../findings/fact.ts';
import { familyFacts, unitFacts } from '../findings/group-facts.ts';
import { type LatestLook, latestLook } from '../findings/latest-look.ts';
import { isPlaced } from '../findings/survey-groups.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import type { SurveyedQuilt, UnitGroup } from '../findings/surveyed.ts';
import type { GroupAction } from '../plans/model.ts';
import { once, oncePer, remembered } from '../quantities/once.ts';
import { judgeRule } from '../rulebook/evaluate.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import type { DecisionContext, StudioPractice } from './context.ts';
import { Force } from './precedence.ts';

/** A case read against the vocabulary: everything known of the quilt itself, before there are plans. */
export interface Reading {
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
export const takeReading = (quiltCase: QuiltCase, context: DecisionContext, treatedFor?: Use): Reading =>
  new Reader(context).read(quiltCase, treatedFor);

/**
 * Reads many variants of one case. What two of them have in common is worked out once: most variants differ in an
 * answer or two and leave the units, the cloth and what is done with each unit as they were.
 */
class Reader {
  readonly #knowledge: Knowledge;
  readonly #practice: StudioPractice;
  readonly #unitRuleKeys: readonly string[];
  readonly #surveys = new Map<string, SurveyedQuilt>();
  readonly #chosen = oncePer((_: SurveyedQuilt) => new Map<string, Treating>());

  constructor({ knowledge, practice }: DecisionContext) {
    this.#knowledge = knowledge;
    this.#practice = practice;
    const tests = unitRules(knowledge.rulebook).flatMap((rule) => rule.tests);
    this.#unitRuleKeys = [...new Set(tests.map(({ key }) => key))];
  }

  read(quiltCase: QuiltCase, treatedFor?: Use): Reading {
    const { vocabulary, figures, rulebook } = this.#knowledge;
    const look = latestLook(quiltCase);
    const { case: latest } = look;
    const quilt = this.#survey(look);
    const asked: Facts = {
      ...foundFacts(look, quilt, vocabulary, figures),
      'finding.washing_practice': this.#practice.washing,
    };
    const refusedUses = refused(asked, rulebook);
    const wanted = latest.client.intended_use;
    const use = wanted !== undefined && refusedUses.includes(wanted) ? 'storage' : wanted;
    const found: Facts =
      asked['finding.intended_use'] === use ? asked : { ...asked, 'finding.intended_use': use };
    // Who only asks what was found never has the units treated.
    const mustStay = latest.quilt.must_stay ?? [];
    const treated = once(() => {
      if (treatedFor === undefined) return this.#treat(quilt, mustStay, found);
      const harder = this.#treat(quilt, mustStay, { ...found, 'finding.intended_use': treatedFor });
      // Rules that speak of the harder use are followed here, and not quoted: what they say is not true of this one.
      return { ...harder, actions: harder.actions.map((each) => ({ ...each, rules: [] })) };
    });
    return {
      latest,
      quilt,
      asked,
      found,
      use,
      refusedUses,
      get planned() {
        return treated().planned;
      },
      get actions() {
        return treated().actions;
      },
    };
  }

  #survey(look: LatestLook): SurveyedQuilt {
    const { quilt, survey } = look.case;
    const { findings: _answers, ...seen } = survey;
    const key = JSON.stringify([quilt.size, quilt.layout, quilt.construction, seen, look.gradeSeen.families]);
    return remembered(this.#surveys, key, () => surveyQuilt(look, this.#knowledge.figures), MOST_KEPT);
  }

  #treat(quilt: SurveyedQuilt, mustStay: readonly string[], found: Facts): Treating {
    const key = JSON.stringify([mustStay, this.#unitRuleKeys.map((id) => found[id])]);
    return remembered(this.#chosen(quilt), key, () => treat(quilt, mustStay, found, this.#knowledge));
  }
}

/** Surveys kept at most: a long interview reads thousands of variants. */
const MOST_KEPT = 1000;

/** What is done with each group of units, and what then is known of the quilt. */
type Treating = Pick<Reading, 'actions' | 'planned'>;

function treat(
  quilt: SurveyedQuilt,
  mustStay: readonly string[],
  found: Facts,
  { vocabulary, figures, rulebook }: Knowledge,
): Treating {
  const judged = judgeGroups(quilt, mustStay, rulebook, found);
  const actions = chooseActions(judged);
  const facts = plannedFacts(quilt, actions, vocabulary, figures);
  const likely = actions.filter(({ group }) => group.count > 0);
  if (!judged.open) return { actions: likely, planned: facts };
  const more = chooseActions(judged, 'ask');
  const decided = more.every(({ action }, index) => action === actions[index]?.action);
  // What is not known may call for more to be done: what then becomes of the quilt is known within bounds.
  const planned = decided ? facts : widest(facts, plannedFacts(quilt, more, vocabulary, figures));
  return { actions: likely, planned };
}

/** Uses that a rule refuses on what is known. */
function refused(asked: Facts, rulebook: Rulebook): Use[] {
  const uses = refusingRules(rulebook)
    .filter((rule) => judgeRule(rule, asked) === true)
    .map((rule) => rule.effects.refuseUse);
  return USES.filter((use) => uses.includes(use));
}

const refusingRules = oncePer((rulebook: Rulebook) =>
  rulebook.rules.filter((rule) => rule.effects.refuseUse !== undefined),
);

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
  readonly verdicts: ReadonlyMap<Rule, Truth> | undefined;
}

/** Groups of units judged once, from which it is chosen what is done with each. */
interface JudgedGroups {
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
