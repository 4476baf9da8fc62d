import type { Figures } from '../figures/model.ts';
import { oncePer } from '../quantities/once.ts';
import { dyeFacts } from './dye-facts.ts';
import type { Fact, Facts } from './fact.ts';
import { fragilityFacts } from './fragility-facts.ts';
import { plannedJoinFacts } from './join-facts.ts';
import { lossFacts } from './loss-facts.ts';
import { stateFacts } from './state-facts.ts';
import type { SurveyedQuilt } from './surveyed.ts';
import { clothIn, plannedCloth, remainingCloth, type Treated } from './takings.ts';
import type { Vocabulary } from './vocabulary.ts';

/**
 * The findings as they would be once the actions are carried out: `planned.<id>` for every finding the vocabulary
 * marks as planned. `treated` names every group of the quilt once, whole or in parts.
 */
export const plannedFacts = (
  quilt: SurveyedQuilt,
  treated: readonly Treated[],
  vocabulary: Vocabulary,
  figures: Figures,
): Facts => {
  const actions = clothIn(treated);
  const mark = figures.number('findings.governing_area');
  const carrying = plannedCloth(quilt, actions);
  const facts: Readonly<Record<string, Fact>> = {
    ...fragilityFacts(quilt, carrying, mark),
    ...dyeFacts(quilt, carrying, remainingCloth(quilt, actions)),
    ...lossFacts(quilt, actions),
    ...stateFacts(quilt, actions),
    ...plannedJoinFacts(quilt, actions),
  };
  return Object.fromEntries(asPlanned(vocabulary).map(([id, key]) => [key, facts[id]]));
};

/** Findings that exist as planned: their names in the vocabulary and as facts. */
const asPlanned = oncePer(({ findings }: Vocabulary) =>
  [...findings.values()].flatMap(({ id, planned }) => (planned ? [[id, `planned.${id}`] as const] : [])),
);
