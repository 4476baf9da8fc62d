import type { Lattice } from './lattice.ts';
import type { LifeElement } from './model.ts';
import { logSum } from './ratios.ts';
import type { Weighed } from './weighed.ts';

/** The quilt's life as the first of its elements to need repair. */
export interface FirstFailure {
  /** P(no repair due) at ln years = start + i·step, at the middle rate of use. */
  readonly survival: Float64Array;
  readonly start: number;
  readonly step: number;
  /** Probability of being first to fail, in the order of the elements that stay. */
  readonly first: readonly number[];
}

export interface Member {
  readonly element: LifeElement;
  readonly weighed: Weighed;
}

/** Age nodes less likely than this are left out, and curves are followed until this little survives. */
const NEGLIGIBLE_AGE = 1e-3;
const NEGLIGIBLE_SURVIVAL = 1e-6;

/**
 * Given the wear so far, elements fail independently: their survival curves multiply. The wear so far is shared, so it
 * is weighed by the evidence of all of them together, those taken out included, and summed over last. Curves are
 * followed as far as `years`.
 */
export function firstFailure(
  members: readonly Member[],
  grid: Lattice,
  ratePerYear: number,
  years: number,
): FirstFailure {
  const { step } = grid;
  const start = grid.base + grid.from * step - Math.log(ratePerYear);
  const standing = members.filter(({ element }) => element.gone !== true);
  const points = Math.max(1, Math.min(grid.points, Math.ceil((Math.log(years) - start) / step) + 2));
  const survival = new Float64Array(points);
  const first = new Float64Array(standing.length);
  const curves = standing.map(() => new Float64Array(points));
  for (const { age, weight } of ageWeights(members, grid)) {
    for (const [e, curve] of curves.entries()) fill(curve, standing[e], age, step);
    addProduct(curves, weight, survival, first);
  }
  return { survival, start, step, first: [...first] };
}

/** Age nodes worth counting, with their probabilities after all evidence. */
function ageWeights(members: readonly Member[], grid: Lattice): { age: number; weight: number }[] {
  const logs = grid.ages.map(({ weight }, age) =>
    members.reduce((sum, { weighed }) => sum + (weighed.logEvidence[age] ?? 0), Math.log(weight)),
  );
  const total = logSum(logs);
  const nodes = logs.map((log, age) => ({ age, weight: Math.exp(log - total) }));
  const kept = nodes.filter(({ weight }) => weight > NEGLIGIBLE_AGE);
  const sum = kept.reduce((all, { weight }) => all + weight, 0);
  return kept.map(({ age, weight }) => ({ age, weight: weight / sum }));
}

/** An element's own curve over years: grades mixed by their probability, each at its own pace of wear. */
function fill(curve: Float64Array, member: Member | undefined, age: number, step: number): void {
  curve.fill(0);
  for (const { grade, probability, curve: plain } of member?.weighed.at(age) ?? []) {
    const wear = member?.element.wear ?? 1;
    const faster = typeof wear === 'number' ? wear : (wear[grade] ?? 1);
    addAtPace(curve, plain, probability, Math.log(faster) / step);
  }
}

/** Adds weight × `plain` read `shift` points further on, straight between points; whole before it, due after it. */
function addAtPace(sum: Float64Array, plain: Float64Array, weight: number, shift: number): void {
  const whole = Math.floor(shift);
  const part = shift - whole;
  const before = Math.min(sum.length, Math.max(0, -whole));
  for (let i = 0; i < before; i++) sum[i] = (sum[i] ?? 0) + weight;
  const end = Math.min(sum.length, plain.length - whole);
  for (let i = before; i < end; i++) {
    const here = plain[i + whole] ?? 0;
    sum[i] = (sum[i] ?? 0) + weight * (here + part * ((plain[i + whole + 1] ?? 0) - here));
  }
}

/**
 * Adds the product of the curves to `survival`, and to `first` the probability that each is the one to drop: within one
 * step the product's drop is shared out in proportion to the hazard each curve met.
 */
function addProduct(
  curves: readonly Float64Array[],
  weight: number,
  survival: Float64Array,
  first: Float64Array,
): void {
  const count = curves.length;
  const above = new Float64Array(count).fill(1);
  const hazard = new Float64Array(count);
  let last = 1;
  for (let i = 0; i < survival.length && last > NEGLIGIBLE_SURVIVAL; i++) {
    let product = 1;
    let all = 0;
    for (let e = 0; e < count; e++) {
      const now = curves[e]?.[i] ?? 0;
      const before = above[e] ?? 1;
      product *= now;
      const drop = before > 0 ? (before - now) / before : 0;
      hazard[e] = drop;
      all += drop;
      above[e] = now;
    }
    survival[i] = (survival[i] ?? 0) + weight * product;
    if (all > 0) {
      const share = (weight * (last - product)) / all;
      for (let e = 0; e < count; e++) first[e] = (first[e] ?? 0) + share * (hazard[e] ?? 0);
    }
    last = product;
  }
}
