import type { FirstFailure } from './first-failure.ts';

/** What speeds up or slows down the whole quilt's wear, as a distribution. */
export interface Pace {
  /** Log-standard deviation of the future rate of use. */
  readonly spread: number;
  readonly alternatives: readonly { readonly weight: number; readonly wear: number }[];
}

/** Reach of the spread of the rate in standard deviations, each cut into this many parts. */
const REACH = 4;
const PARTS = 6;

/** How far along the curve of a middling pace anything up to `years` may look. */
export const reach = (pace: Pace, years: number): number =>
  years * Math.exp(REACH * pace.spread) * Math.max(...pace.alternatives.map(({ wear }) => wear));

/** P(no repair due within `years`), the pace of wear integrated out. */
export function survivalAt(life: FirstFailure, pace: Pace, years: number): number {
  const total = pace.alternatives.reduce((sum, { weight }) => sum + weight, 0);
  let survival = 0;
  for (const { weight, wear } of pace.alternatives) {
    const log = Math.log(years * wear);
    survival += (weight / total) * (pace.spread > 0 ? blurred(life, log, pace.spread) : at(life, log));
  }
  return survival;
}

const NODES = Float64Array.from({ length: 2 * REACH * PARTS + 1 }, (_, i) => i / PARTS - REACH);
const WEIGHTS = NODES.map((z) => Math.exp(-0.5 * z * z));
const NODES_WEIGHT = WEIGHTS.reduce((sum, weight) => sum + weight, 0);

function blurred(life: FirstFailure, log: number, spread: number): number {
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) sum += (WEIGHTS[i] ?? 0) * at(life, log + spread * (NODES[i] ?? 0));
  return sum / NODES_WEIGHT;
}

/** Straight between lattice points; whole before them, due after. */
function at({ survival, start, step }: FirstFailure, log: number): number {
  const x = (log - start) / step;
  if (x <= 0) return 1;
  const cell = Math.floor(x);
  const left = survival[cell] ?? 0;
  return left + (x - cell) * ((survival[cell + 1] ?? 0) - left);
}

/** The years by which a repair is due with probability p, or the horizon where that lies beyond it. 0: due already. */
export function yearsUntil(life: FirstFailure, pace: Pace, p: number, horizon: number): number {
  if (survivalAt(life, pace, horizon) > 1 - p) return horizon;
  const node = (i: number): number => survivalAt(life, pace, Math.exp(life.start + i * life.step));
  if (node(0) <= 1 - p) return 0;
  let low = 0;
  let high = Math.ceil((Math.log(horizon) - life.start) / life.step);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (node(middle) > 1 - p) low = middle;
    else high = middle;
  }
  // between neighbouring points survival is as good as straight over log years
  const above = node(low);
  const part = (above - (1 - p)) / (above - node(high));
  return Math.min(horizon, Math.exp(life.start + (low + part) * life.step));
}
