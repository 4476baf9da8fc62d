import type { Pace } from './model.ts';
import type { LifePrior } from './prior.ts';

/** P(no repair is due yet) along a grid of wear-years ahead, evenly spaced in their logarithms, and on the first day. */
export interface WearCurve {
  readonly logFrom: number;
  readonly logStep: number;
  readonly survival: Float64Array;
  readonly now: number;
}

/** Reach of the spread of the rate in standard deviations, each cut into this many parts. */
const REACH = 4;
const PARTS = 6;
const NODES = Float64Array.from({ length: 2 * REACH * PARTS + 1 }, (_, i) => i / PARTS - REACH);
const WEIGHTS = NODES.map((z) => Math.exp(-0.5 * z * z));
const NODES_WEIGHT = WEIGHTS.reduce((sum, weight) => sum + weight, 0);

/** The curve where the rate of wear is not sure: its spread integrated out. */
export function blurred(curve: WearCurve, spread: number): WearCurve {
  const { logFrom, logStep } = curve;
  const survival = curve.survival.map((_, point) => {
    let sum = 0;
    for (let i = 0; i < NODES.length; i++)
      sum += (WEIGHTS[i] ?? 0) * at(curve, logFrom + point * logStep + spread * (NODES[i] ?? 0));
    return sum / NODES_WEIGHT;
  });
  return { ...curve, survival };
}

/** P(no repair due within `years`), along a blurred curve. */
export function survivalAt(curve: WearCurve, { rate, alternatives }: Pace, years: number): number {
  if (!(years > 0)) return curve.now;
  return alternatives.reduce(
    (sum, { weight, wear }) => sum + weight * at(curve, Math.log(years * rate * wear)),
    0,
  );
}

/**
 * Between points of the grid a cubic through them with the slopes of their neighbours (Catmull and Rom); before the grid
 * as on the first day, after it as at its end.
 */
function at({ survival, now, logFrom, logStep }: WearCurve, log: number): number {
  const x = (log - logFrom) / logStep;
  if (x <= 0) return now;
  const last = survival.length - 1;
  const cell = Math.floor(x);
  if (cell >= last) return survival[last] ?? 0;
  const part = x - cell;
  const [from, to] = [survival[cell] ?? 0, survival[cell + 1] ?? 0];
  const leaving = (to - (survival[cell - 1] ?? from)) / 2;
  const arriving = ((survival[cell + 2] ?? to) - from) / 2;
  const over = to - from;
  return (
    from +
    part * (leaving + part * (3 * over - 2 * leaving - arriving + part * (leaving + arriving - 2 * over)))
  );
}

const FIRST = 0.01;
const HALVINGS = 24;

/** Along a blurred curve: the years by which a repair is due with probability p, or the horizon where that lies beyond it. 0: due already. */
export function yearsUntil(curve: WearCurve, pace: Pace, p: number, horizon: number): number {
  const undue = (years: number): boolean => survivalAt(curve, pace, years) > 1 - p;
  if (undue(horizon)) return horizon;
  if (!undue(FIRST)) return 0;
  let [low, high] = [Math.log(FIRST), Math.log(horizon)];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (undue(Math.exp(middle))) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

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
