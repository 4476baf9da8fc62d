import type { QuiltCase } from '../casebook/model.ts';
import { USES, type Use } from '../casebook/scales.ts';
import { foundFacts } from '../findings/as-found.ts';
import { type Facts, widest } from '../findings/fact.ts';
import { type LatestLook, latestLook } from '../findings/latest-look.ts';
import { plannedFacts } from '../findings/planned.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { GroupAction } from '../plans/model.ts';
import { once, oncePer, remembered } from '../quantities/once.ts';
import { judgeRule } from '../rulebook/fast.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rulebook } from '../rulebook/model.ts';
import { chooseActions, judgeGroups, unitRules } from './actions.ts';
import type { DecisionContext, StudioPractice } from './context.ts';

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
export class Reader {
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
