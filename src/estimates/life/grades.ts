import { GRADES } from '../../casebook/scales.ts';
import type { GradeWeights } from './model.ts';

/** A grade for each of some kinds of cloth, and how likely they are together. */
export interface Grading {
  readonly grades: readonly number[];
  readonly weight: number;
}

const LEAST = 1e-9;

/**
 * What the grades of several kinds may be. Kinds that nobody graded are bad together: one chance stands for how bad all
 * that is ungraded in this quilt is, and each kind takes the grade its own chances give to it.
 */
export function gradings(kinds: readonly GradeWeights[]): readonly Grading[] {
  const ends = kinds.map((chances) => {
    let sum = 0;
    return GRADES.map((_, grade) => {
      sum += chances[grade] ?? 0;
      return sum;
    });
  });
  const marks = [...new Set([0, ...ends.flat()])].sort((a, b) => a - b);
  return marks.slice(1).flatMap((to, i) => {
    const from = marks[i] ?? 0;
    const weight = to - from;
    if (weight < LEAST) return [];
    const middle = (from + to) / 2;
    const grades = ends.map((own) => own.findIndex((end) => end > middle));
    return [{ grades, weight }];
  });
}

/**
 * How likely each of some cloths is to be the weaker side of a join, sides falling by their shares of the cloth; of two
 * of one grade each as often.
 */
export function weakerSides(
  cloths: readonly { readonly share: number; readonly grade: number }[],
): readonly number[] {
  const all = cloths.reduce((sum, { share }) => sum + share, 0);
  const upTo = (grade: number): number =>
    cloths.reduce((sum, cloth) => sum + (cloth.grade <= grade ? cloth.share : 0), 0) / all;
  return cloths.map(({ grade, share }) => {
    const [with_, without] = [upTo(grade), upTo(grade - 1)];
    const own = with_ - without;
    return own > 0 ? ((with_ * with_ - without * without) * (share / all)) / own : 0;
  });
}
