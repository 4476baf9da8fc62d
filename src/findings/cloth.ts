import { GRADES } from '../casebook/scales.ts';
import { areaOf, type Part } from './area.ts';
import { boundsOf } from './bounds.ts';
import type { Span } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** How much of a group is no longer old cloth that carries, being gone or to be replaced: parts of 1. */
export type Taking = Part;

/** The old cloth of a top: of every group, how much of it is left. */
export interface Cloth {
  readonly quilt: SurveyedQuilt;
  readonly takings: readonly Taking[];
}

const WORST = GRADES.length - 1;
const WORN = GRADES.indexOf('worn');

/** Shares smaller than this are the dust of binary sums. */
export const DUST = 1e-9;

/** Nobody counted or mapped anything: the cloth that was graded is then taken to be there. */
export const isUncounted = ({ groups }: SurveyedQuilt): boolean =>
  groups.every(({ where, state }) => where === undefined && (state === 'unseen' || state === 'lost')) &&
  groups.some(({ state }) => state === 'unseen');

/**
 * The grade of a group's cloth. A unit marked worn is at least worn, whatever its fabric's grade, and one that nobody has
 * seen may be. Cloth of no fabric that was surveyed may be of any grade.
 */
export const gradeOf = (quilt: SurveyedQuilt, { family, state }: UnitGroup): Span => {
  const { lo, hi } = boundsOf(quilt.families[family ?? '']?.fragility ?? { lo: 0, hi: WORST });
  if (state === 'worn') return { lo: Math.max(WORN, lo), hi: Math.max(WORN, hi) };
  return state === 'unseen' && !isUncounted(quilt) ? { lo, hi: Math.max(WORN, hi) } : { lo, hi };
};

/** Share of the top that is left of what is surely, and of what may be, of some kind. */
export const leftOf = (
  { quilt, takings }: Cloth,
  kind: (group: UnitGroup) => { readonly sure: boolean; readonly can: boolean },
): Span =>
  areaOf(
    quilt,
    takings.map(({ group, sure: taken, perhaps }) => {
      const { sure, can } = kind(group);
      const least = sure ? Math.max(0, 1 - taken - perhaps) : 0;
      return { group, sure: least, perhaps: can ? 1 - taken - least : 0 };
    }),
  );

/** Share of the top that is old cloth of this grade or worse. */
export const atLeast = (cloth: Cloth, grade: number): Span =>
  leftOf(cloth, (group) => {
    const { lo, hi } = gradeOf(cloth.quilt, group);
    return { sure: lo >= grade, can: hi >= grade };
  });

/** The worst grade of cloth that, with everything worse, makes up the given share of the top. */
export const governing = (cloth: Cloth, mark: number): Span => {
  const grades = GRADES.map((_, grade) => atLeast(cloth, grade));
  const worst = (bound: 'lo' | 'hi'): number =>
    Math.max(0, ...grades.flatMap((area, grade) => (area[bound] >= mark - DUST ? [grade] : [])));
  return { lo: worst('lo'), hi: worst('hi') };
};

/** The worst grade of any cloth left, however little. */
export const worstLeft = (cloth: Cloth): Span => governing(cloth, 2 * DUST);

/** Whether any of a fabric is left: undefined where it may or may not be. */
export const isLeft = (cloth: Cloth, letter: string): boolean | undefined => {
  const own = cloth.takings.filter(({ group }) => group.family === letter);
  const left = leftOf(cloth, ({ family }) => ({ sure: family === letter, can: family === letter }));
  if (left.hi <= DUST) return false;
  // A surveyed fabric whose share nobody stated is still there while nothing was taken that could be of it.
  const untouched = own.every(({ sure, perhaps }) => sure + perhaps <= DUST);
  return untouched || left.lo > DUST ? true : undefined;
};
