import type { Pace } from './model.ts';

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
  const before = cell > 0 ? (survival[cell - 1] ?? 0) : from;
  const after = cell + 2 <= last ? (survival[cell + 2] ?? 0) : to;
  const [leaving, arriving] = [(to - before) / 2, (after - from) / 2];
  const [square, cube] = [part * part, part * part * part];
  return (
    (2 * cube - 3 * square + 1) * from +
    (cube - 2 * square + part) * leaving +
    (3 * square - 2 * cube) * to +
    (cube - square) * arriving
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
