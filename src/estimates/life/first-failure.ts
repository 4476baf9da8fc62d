import { type Lattice, logSum } from './lattice.ts';
import type { LifeElement } from './model.ts';
import type { Posterior } from './posterior.ts';

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

/** An element with its evidence weighed over grades and wear so far. The plan's own wear is not in it yet. */
export interface Weighed {
  /** ln of the marginal likelihood of its evidence at each age node. */
  readonly logEvidence: readonly number[];
  /** At an age node: the probability of each grade that has a life, and its survival curve on the lattice. */
  at(
    age: number,
  ): readonly { readonly grade: number; readonly probability: number; readonly curve: Float64Array }[];
  /** True where no grade it may have has a life: no forecast is offered. */
  readonly hopeless: boolean;
}

/** `lives` is how many grades have a life; a grade beyond shows the damage of the worst that has one. */
export function weigh(
  grade: LifeElement['grade'],
  posterior: Posterior,
  grid: Lattice,
  lives: number,
): Weighed {
  const grades = gradeWeights(grade);
  const evidence = (one: number, age: number): number => posterior.logEvidence(Math.min(one, lives - 1), age);
  const logEvidence = grid.ages.map((_, age) =>
    logSum(grades.map((one) => Math.log(one.weight) + evidence(one.grade, age))),
  );
  const parts: ReturnType<Weighed['at']>[] = [];
  const part = (age: number): ReturnType<Weighed['at']> =>
    grades
      .filter((one) => one.grade < lives)
      .map((one) => ({
        grade: one.grade,
        probability: one.weight * Math.exp(evidence(one.grade, age) - (logEvidence[age] ?? 0)),
        curve: posterior.survival(one.grade, age),
      }));
  return {
    logEvidence,
    at: (age) => {
      const made = parts[age] ?? part(age);
      parts[age] = made;
      return made;
    },
    hopeless: grades.every((one) => one.grade >= lives),
  };
}

function gradeWeights(grade: LifeElement['grade']): { grade: number; weight: number }[] {
  if (typeof grade === 'number') return [{ grade, weight: 1 }];
  const entries = Object.entries(grade).filter(([, weight]) => weight > 0);
  const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
  return entries.map(([index, weight]) => ({ grade: Number(index), weight: weight / total }));
}
