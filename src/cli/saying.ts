import type { Saying } from '../experience/saying.ts';
import { STANDING_WORDS, TREATMENT_WORDS } from './print/labels.ts';
import type { Studio } from './studio.ts';

/** Words and measures as this studio has them. */
export const sayingOf = ({ knowledge, practice }: Studio): Saying => ({
  vocabulary: knowledge.vocabulary,
  units: practice.settings.units,
  currency: practice.settings.currency,
  standing: STANDING_WORDS,
  treatment: TREATMENT_WORDS,
});
