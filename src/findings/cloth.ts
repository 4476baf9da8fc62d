import { GRADES } from '../casebook/scales.ts';
import { boundsOf } from './bounds.ts';
import type { Span } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** How much of a group is no longer old cloth that carries: gone, or to be replaced. Shares of the top. */
export interface Taking {
  readonly group: UnitGroup;
  readonly taken: number;
  /** Perhaps taken, beyond `taken`. */
  readonly maybe: number;
}

/** Old cloth of one family, or of its worn pieces, or of no family that was surveyed. */
interface Piece {
  readonly family: string | undefined;
  readonly grade: Span;
  /** Share of the top it had in the design. */
  readonly total: Span;
  readonly taken: number;
  readonly maybe: number;
}

/** The old cloth of a top within bounds. What is taken from no known family could be taken from any. */
export interface Cloth {
  readonly pieces: readonly Piece[];
  readonly untold: { readonly taken: number; readonly maybe: number };
  readonly taken: number;
  readonly maybe: number;
  /** Cloth marked worn, whatever its family; and cloth that may be worn beyond its family's grade, being unseen or untold. */
  readonly worn: { readonly all: number; readonly perhaps: number };
}

const WORST = GRADES.length - 1;
const WORN = 1;

/** Shares smaller than this are the dust of binary sums. */
export const DUST = 1e-9;

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + of(item), 0);

/** Nobody counted or mapped anything: the cloth that was graded is then taken to be there. */
export const isUncounted = ({ groups }: SurveyedQuilt): boolean =>
  groups.every(({ where, state }) => where === undefined && (state === 'unseen' || state === 'lost')) &&
  groups.some(({ state }) => state === 'unseen');

/** Gathers what is left of each family's cloth. A unit marked worn is at least worn, whatever its family's grade. */
export const clothOf = (quilt: SurveyedQuilt, takings: readonly Taking[]): Cloth => {
  const families = Object.values(quilt.families);
  const pieces = families.flatMap(({ letter, fragility, share }): Piece[] => {
    const own = takings.filter(({ group }) => group.family === letter);
    const worn = own.filter(({ group }) => group.state === 'worn');
    const rest = own.filter(({ group }) => group.state !== 'worn');
    const wornShare = sum(worn, ({ group }) => group.share);
    const grade = boundsOf(fragility);
    const total = boundsOf(share);
    const made = (from: readonly Taking[], pieceGrade: Span, pieceTotal: Span): Piece => ({
      family: letter,
      grade: pieceGrade,
      total: pieceTotal,
      taken: sum(from, ({ taken }) => taken),
      maybe: sum(from, ({ maybe }) => maybe),
    });
    const others = { lo: Math.max(0, total.lo - wornShare), hi: Math.max(0, total.hi - wornShare) };
    if (worn.length === 0) return [made(rest, grade, total)];
    const wornGrade = { lo: Math.max(WORN, grade.lo), hi: Math.max(WORN, grade.hi) };
    return [made(rest, grade, others), made(worn, wornGrade, { lo: wornShare, hi: wornShare })];
  });
  const untold = takings.filter(({ group }) => quilt.families[group.family ?? ''] === undefined);
  const wornGroups = takings.filter(({ group }) => group.state === 'worn');
  const unseen = isUncounted(quilt) ? [] : takings.filter(({ group }) => group.state === 'unseen');
  const perhapsWorn = [...wornGroups.filter((each) => untold.includes(each)), ...unseen];
  return {
    pieces: [...pieces, unsurveyed(pieces)],
    untold: { taken: sum(untold, ({ taken }) => taken), maybe: sum(untold, ({ maybe }) => maybe) },
    taken: sum(takings, ({ taken }) => taken),
    maybe: sum(takings, ({ maybe }) => maybe),
    worn: {
      all: sum(wornGroups, ({ group, taken, maybe }) => group.share - taken - maybe),
      perhaps: sum(perhapsWorn, ({ group, taken }) => group.share - taken),
    },
  };
};

/** Cloth that no family accounts for may be of any grade. */
const unsurveyed = (pieces: readonly Piece[]): Piece => ({
  family: undefined,
  grade: { lo: 0, hi: WORST },
  total: {
    lo: Math.max(0, 1 - sum(pieces, ({ total }) => total.hi)),
    hi: Math.max(0, 1 - sum(pieces, ({ total }) => total.lo)),
  },
  taken: 0,
  maybe: 0,
});

/** The most that can be left of some pieces. */
export const mostOf = (pieces: readonly Piece[]): number =>
  sum(pieces, ({ total, taken }) => Math.max(0, total.hi - taken));

/** The least that must be left of some pieces together; what was taken from no known family is taken from them. */
export const leastOf = (cloth: Cloth, pieces: readonly Piece[]): number => {
  const own = sum(pieces, ({ total, taken, maybe }) => Math.max(0, total.lo - taken - maybe));
  return Math.max(0, own - cloth.untold.taken - cloth.untold.maybe);
};

/** Share of the top that is old cloth of this grade or worse. */
export const atLeast = (cloth: Cloth, grade: number): Span => {
  const could = cloth.pieces.filter((piece) => piece.grade.hi >= grade);
  const cannot = cloth.pieces.filter((piece) => piece.grade.hi < grade);
  const must = cloth.pieces.filter((piece) => piece.grade.lo >= grade);
  const needNot = cloth.pieces.filter((piece) => piece.grade.lo < grade);
  const marked = grade <= WORN ? cloth.worn : { all: 0, perhaps: 0 };
  const left = 1 - cloth.taken;
  const lo = Math.max(leastOf(cloth, must), left - cloth.maybe - mostOf(needNot), marked.all, 0);
  const hi = Math.min(mostOf(could) + marked.perhaps, left - leastOf(cloth, cannot) + marked.perhaps, left);
  return { lo, hi: Math.max(lo, hi) };
};

/** The worst grade of cloth that, with everything worse, makes up the given share of the top. */
export const governing = (cloth: Cloth, mark: number): Span => {
  const grades = GRADES.map((_, grade) => atLeast(cloth, grade));
  const worst = (bound: 'lo' | 'hi'): number =>
    Math.max(0, ...grades.flatMap((area, grade) => (area[bound] >= mark - DUST ? [grade] : [])));
  return { lo: worst('lo'), hi: worst('hi') };
};

/** The worst grade of any cloth left, however little. */
export const worstLeft = (cloth: Cloth): Span => governing(cloth, 2 * DUST);
