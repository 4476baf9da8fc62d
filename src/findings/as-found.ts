import type { Figures } from '../figures/model.ts';
import { oncePer, oncePerPair } from '../quantities/once.ts';
import { dyeFacts } from './dye-facts.ts';
import type { Fact, Facts } from './fact.ts';
import { fibreFacts } from './fibre-facts.ts';
import { fragilityFacts } from './fragility-facts.ts';
import { joinFacts } from './join-facts.ts';
import type { LatestLook } from './latest-look.ts';
import { lossFacts, worstFamilyLoss } from './loss-facts.ts';
import { lossInOuterRowsOnly } from './outer-rows.ts';
import { stateFacts, unseenShare } from './state-facts.ts';
import { statedFacts } from './stated-facts.ts';
import type { SurveyedQuilt } from './surveyed.ts';
import { clothIn, foundCloth, type Treated } from './takings.ts';
import type { Vocabulary } from './vocabulary.ts';

/**
 * Everything known of the quilt as it was found: `finding.<id>` for every finding of the vocabulary that is of the
 * quilt; undefined is unknown, spans are bounds. `quilt` is `surveyQuilt(look, figures)`.
 */
export const foundFacts = (
  look: LatestLook,
  quilt: SurveyedQuilt,
  vocabulary: Vocabulary,
  figures: Figures,
): Facts => {
  const stated = statedFacts(look, vocabulary);
  const derived = derivedFacts(quilt, figures);
  const fibres: Readonly<Record<string, Fact>> = fibreFacts(quilt, look.case.quilt.batting);
  const { made } = look.case.quilt;
  const cameIn = look.case.opened;
  const year = cameIn === undefined ? undefined : Number(cameIn.slice(0, 4));
  const own: Readonly<Record<string, Fact>> = {
    // Where there is no silk there is none to shatter.
    shattering_silk: stated.shattering_silk ?? (fibres.silk_present === false ? 0 : undefined),
    opened: look.opened,
    hazard_withdrawn: look.withdrawn.length > 0,
    loss_in_outer_rows_only: stated.loss_in_outer_rows_only ?? lossInOuterRowsOnly(quilt),
    old_joining_intact: oldJoiningIntact(stated, figures.number('findings.intact_missing')),
    mapped: look.case.survey.units !== undefined,
    age_years: year === undefined || made?.about === undefined ? undefined : Math.max(0, year - made.about),
    area: quilt.size.width * quilt.size.height,
  };
  const facts: Record<string, Fact> = {};
  // Thousands of readings are made where an answer is questioned: looked up, not merged.
  for (const [id, key] of ofTheQuilt(vocabulary)) {
    const from = id in own ? own : id in fibres ? fibres : id in derived ? derived : stated;
    facts[key] = from[id];
  }
  return facts;
};

/** Findings of the quilt: their names in the vocabulary and as facts. */
const ofTheQuilt = oncePer(({ findings }: Vocabulary) =>
  [...findings.values()].flatMap(({ id, per }) => (per === 'quilt' ? [[id, `finding.${id}`] as const] : [])),
);

/** What follows from the units, families and joins. */
const derivedFacts = oncePerPair((quilt: SurveyedQuilt, figures: Figures): Readonly<Record<string, Fact>> => {
  const untouched: readonly Treated[] = clothIn(quilt.groups.map((group) => ({ group, action: 'keep' })));
  const cloth = foundCloth(quilt);
  return {
    ...lossFacts(quilt, untouched),
    worst_family_loss: worstFamilyLoss(quilt),
    ...joinFacts(quilt.joins, figures.number('findings.interval_confidence')),
    ...fragilityFacts(quilt, cloth, figures.number('findings.governing_area')),
    ...dyeFacts(quilt, cloth, cloth),
    ...stateFacts(quilt, untouched),
    unseen_share: unseenShare(quilt),
  };
});

/** Old fastenings are intact where few are missing; no joining is none to rely on. */
const oldJoiningIntact = (stated: Readonly<Record<string, Fact>>, mark: number): Fact => {
  const { joining_kind: kind, joining_missing: missing } = stated;
  if (kind === 'none') return false;
  if (typeof missing === 'number' && missing > mark) return false;
  return kind === undefined || typeof missing !== 'number' ? undefined : true;
};
