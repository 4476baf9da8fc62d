import { GRADES } from '../../casebook/scales.ts';
import { highest, lowest, type Span } from '../../findings/fact.ts';
import type { GradeWeights } from './model.ts';

export const WEAK = GRADES.indexOf('weak');
export const FAILING = GRADES.indexOf('failing');

/** Chances of each grade within what is known, by the vocabulary's odds; they add up to 1. */
export function gradeChances(fragility: number | Span, odds: readonly number[] = []): GradeWeights {
  const grades = GRADES.map((_, grade) => grade).filter(
    (grade) => grade >= lowest(fragility) && grade <= highest(fragility),
  );
  // odds that are all nothing say nothing
  const silent = grades.every((grade) => !((odds[grade] ?? 0) > 0));
  return normalised(grades.map((grade) => [grade, silent ? 1 : (odds[grade] ?? 0)]));
}

/** Chances mixed by the share of cloth each belongs to. */
export function mixed(
  parts: readonly { readonly share: number; readonly chances: GradeWeights }[],
): GradeWeights {
  // shares that are all nothing say nothing
  const silent = parts.every(({ share }) => !(share > 0));
  const chance = (grade: number): number =>
    parts.reduce((sum, { share, chances }) => sum + (silent ? 1 : share) * (chances[grade] ?? 0), 0);
  return normalised(GRADES.map((_, grade) => [grade, chance(grade)]));
}

/** Grade of the weaker of two pieces picked from such cloth: a seam is as strong as its weaker side. */
export function weakerOfTwo(chances: GradeWeights): GradeWeights {
  let below = 0;
  return normalised(
    GRADES.map((_, grade) => {
      const upTo = below + (chances[grade] ?? 0);
      const both = upTo * upTo - below * below;
      below = upTo;
      return [grade, both];
    }),
  );
}

/** Without failing cloth: what hangs by it is counted with the cloth itself. */
export const withoutFailing = (chances: GradeWeights): GradeWeights =>
  normalised(GRADES.map((_, grade) => [grade, grade === FAILING ? 0 : (chances[grade] ?? 0)]));

/** Chance of a grade or a worse one. */
export const atLeast = (chances: GradeWeights, grade: number): number =>
  Object.entries(chances).reduce((sum, [one, chance]) => sum + (Number(one) >= grade ? chance : 0), 0);

function normalised(entries: readonly (readonly [number, number])[]): GradeWeights {
  const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
  return Object.fromEntries(
    entries.filter(([, weight]) => weight > 0).map(([grade, weight]) => [grade, weight / total]),
  );
}
