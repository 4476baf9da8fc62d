import type { Treatment } from '../casebook/scales.ts';
import type { Standing } from '../rulebook/model.ts';

/** What everybody asks an answer for first: its standing and its treatment. */
export interface Verdict {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}

export const sameVerdict = (a: Verdict, b: Verdict): boolean =>
  a.standing === b.standing && a.treatment === b.treatment;
