import type { LifePrior } from './prior.ts';

/**
 * P(no repair is due yet) where a share D of a quilt is damaged and repairs are due at about c: P(Gamma(J) > J·D/c), a
 * gamma variable of mean c whose shape J says how closely the count of damaged parts keeps to its mean. Tabled evenly
 * over D/c, by Simpson's rule over the density x^(J − 1) e^(−J x).
 */
export interface DueTable {
  readonly mark: number;
  readonly shape: number;
  /** P(not due) at D/c = i ÷ perMark; nothing is left after the table. */
  readonly survival: Float64Array;
  readonly perMark: number;
}

const PER_MARK = 256;
/** Beyond this many marks less than a millionth is left at the least shape there is. */
const MARKS = 9;
const LEAST_SHAPE = 2;

/** `pieces`: how many pieces the quilt has, evenly weighed; `countedIn`: in how many of them its damage is counted. */
export function dueTable(
  pieces: number,
  countedIn: number,
  { share, parts: least, clumped }: Pick<LifePrior, 'share' | 'parts' | 'clumped'>,
): DueTable {
  const mark = Math.max(share, least / pieces);
  const shape = Math.max(LEAST_SHAPE, (mark * countedIn) / clumped.ahead);
  return { mark, shape, perMark: PER_MARK, survival: gammaTail(shape) };
}

/** P(Gamma(J) > J·x), Gamma of scale 1, at x = 0, 1/PER_MARK, … */
export function gammaTail(shape: number): Float64Array {
  const cells = MARKS * PER_MARK;
  // about the top of the density, which keeps thousands of parts from underflowing
  const peak = (shape - 1) / shape;
  const density = (x: number): number =>
    x === 0 ? 0 : Math.exp((shape - 1) * Math.log(x / peak) - shape * (x - peak));
  const tail = new Float64Array(cells + 1);
  for (let i = cells - 1; i >= 0; i--) {
    const [a, b] = [i / PER_MARK, (i + 1) / PER_MARK];
    const cell = density(a) + 4 * density((a + b) / 2) + density(b);
    tail[i] = (tail[i + 1] ?? 0) + cell;
  }
  const all = tail[0] ?? 1;
  return tail.map((sum) => sum / all);
}

/** P(no repair is due yet) where so many marks of damage are reached. */
export function chanceUndue({ survival, perMark }: DueTable, marks: number): number {
  const x = marks * perMark;
  const cell = Math.floor(x);
  const left = survival[cell] ?? 0;
  return left + (x - cell) * ((survival[cell + 1] ?? 0) - left);
}
