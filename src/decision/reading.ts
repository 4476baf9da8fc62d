import type { QuiltCase } from '../casebook/model.ts';
import { USES, type Use } from '../casebook/scales.ts';
import type { StudioSettings } from '../estimates/studio.ts';
import { foundFacts } from '../findings/as-found.ts';
import { type Facts, widest } from '../findings/fact.ts';
import { latestLook } from '../findings/latest-look.ts';
import { plannedFacts } from '../findings/planned.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { GroupAction } from '../plans/model.ts';
import { judgeRule } from '../rulebook/fast.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import { chooseActions } from './actions.ts';

/** How a studio works: its prices, and whether it washes by museum or by studio practice. */
export interface StudioPractice {
  readonly settings: StudioSettings;
  readonly washing: 'museum' | 'studio';
}

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

export function takeReading(quiltCase: QuiltCase, knowledge: Knowledge, studio: StudioPractice): Reading {
  const { vocabulary, figures, rulebook } = knowledge;
  const { case: latest } = latestLook(quiltCase);
  const quilt = surveyQuilt(quiltCase, figures);
  const asked: Facts = {
    ...foundFacts(quiltCase, quilt, vocabulary, figures),
    'finding.washing_practice': studio.washing,
  };
  const refusedUses = refused(asked, knowledge);
  const wanted = latest.client.intended_use;
  const use = wanted !== undefined && refusedUses.includes(wanted) ? 'storage' : wanted;
  const found: Facts = { ...asked, 'finding.intended_use': use };
  const mustStay = latest.quilt.must_stay ?? [];
  const actions = chooseActions(quilt, mustStay, rulebook, found);
  const more = chooseActions(quilt, mustStay, rulebook, found, 'ask');
  // What is not known may call for more to be done: what then becomes of the quilt is known within bounds.
  const planned = widest(
    plannedFacts(quilt, actions, vocabulary, figures),
    plannedFacts(quilt, more, vocabulary, figures),
  );
  return { latest, quilt, asked, found, planned, use, refusedUses, actions };
}

/** Uses that a rule refuses on what is known. */
function refused(asked: Facts, { rulebook }: Knowledge): Use[] {
  const uses = rulebook.rules
    .filter((rule) => rule.effects.refuseUse !== undefined && judgeRule(rule, asked) === true)
    .map((rule) => rule.effects.refuseUse);
  return USES.filter((use) => uses.includes(use));
}
