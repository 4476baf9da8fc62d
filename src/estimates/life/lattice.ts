import { remembered } from '../../quantities/once.ts';
import type { DueHazard } from './due-hazard.ts';
import type { LifeInput } from './model.ts';
import { type LifePrior, type PassedHazard, passedHazard, weighedByEvidence } from './prior.ts';

/**
 * One evenly spaced lattice of log wear for everything: wear until due (r) sits on ln A₀ + n·fine, wear so far (A) and
 * time (t) on ln A₀ + n·step, where a step is a few fine ones. So t / A sits on n·step and r / A on n·fine, and
 * nothing has to be worked out twice for another A.
 */
export interface Lattice {
  readonly fine: number;
  readonly step: number;
  /** ln A₀: the wear so far, or its median where it is uncertain. */
  readonly base: number;
  /** Nodes of the wear so far, `offset` steps from the base, with their prior probabilities. */
  readonly ages: readonly { readonly offset: number; readonly weight: number }[];
  /** Lowest n of a survival curve, and how many points it has. */
  readonly from: number;
  readonly points: number;
  /** Nodes of the Weibull shape with their prior probabilities. */
  readonly shapes: readonly { readonly shape: number; readonly weight: number }[];
  /** Extra points at the start of a curve over τ = t / A, so that every age node can shift into it. */
  readonly margin: number;
  /** ln((1 + τ)^k − 1) for each shape k along the lattice of τ. */
  readonly growth: readonly Float64Array[];
  /** Nodes of the wear until due (r), by grade. */
  due(grade: number): LogNodes;
  /** For ρ = r / A = e^(q·fine): the hazard already passed, by shape, where a further share s is due at r. */
  passed(q: number): PassedHazard;
}

/** Neighbouring points of the fine lattice, n = first, first + 1, …, with the logarithms of their prior probabilities. */
interface LogNodes {
  readonly first: number;
  readonly logWeights: Float64Array;
}

/** Reach of the nodes in standard deviations, and how many nodes stand on one. 97 over r, 13 over k, about 11 over A. */
const REACH = 6;
const PER_SPREAD = 8;
const SHAPE_NODES = 13;
const AGE_REACH = 3;
const AGES_PER_SPREAD = 1.5;

/** Fine steps to a step. */
export const STRIDE = 2;

/** Curves run over these wear-years: before, everything is whole; after, everything is due. */
const LEAST_WEAR = 0.005;
const MOST_WEAR = 2000;

/** `fineness` multiplies the number of nodes in every direction; 1 is enough (see the tests). */
export function lattice(wear: LifeInput['wear'], prior: LifePrior, fineness: number): Lattice {
  const fine = Math.min(...prior.due.map((due) => due.spread)) / PER_SPREAD / fineness;
  const step = STRIDE * fine;
  const { base, spread } = wearSoFar(wear, prior);
  const from = Math.floor((Math.log(LEAST_WEAR) - base) / step);
  const points = Math.ceil((Math.log(MOST_WEAR) - base) / step) - from + 1;
  const ages = ageNodes(spread, step, fineness);
  const offsets = ages.map((age) => age.offset);
  const margin = Math.max(...offsets);
  const logs = Float64Array.from({ length: points + margin - Math.min(...offsets) }, (_, i) =>
    Math.log1p(Math.exp((from - margin + i) * step)),
  );
  const shapes = normalNodes((SHAPE_NODES - 1) * fineness + 1).map(({ z, weight }) => ({
    shape: prior.shape.median * Math.exp(prior.shape.spread * z),
    weight,
  }));
  const growth = shapes.map(({ shape }) => logs.map((log) => logExpm1(shape * log)));
  const logShare = Math.log(-Math.log1p(-prior.share));
  const hazards = new Map<number, PassedHazard>();
  const passed = (q: number): PassedHazard => {
    const known = hazards.get(q);
    if (known !== undefined) return known;
    const log = Math.log1p(Math.exp(q * fine));
    const logs = new Float64Array(shapes.length);
    for (let i = 0; i < logs.length; i++) logs[i] = logShare - logExpm1((shapes[i]?.shape ?? 0) * log);
    const made = passedHazard(logs);
    hazards.set(q, made);
    return made;
  };
  const nodes = new Map<number, LogNodes>();
  const due = (grade: number): LogNodes =>
    remembered(nodes, grade, () => {
      const life = prior.due[grade];
      return life === undefined
        ? { first: 0, logWeights: new Float64Array() }
        : lognormalNodes(fine, base, life);
    });
  return { fine, step, base, ages, from, points, shapes, margin, growth, due, passed };
}

/** ln(e^x − 1), safe for large x. */
const logExpm1 = (x: number): number => (x > 30 ? x : Math.log(Math.expm1(x)));

/** Log-median and log-spread of the wear so far. */
function wearSoFar(wear: LifeInput['wear'], prior: LifePrior): { base: number; spread: number } {
  if ('known' in wear) return { base: Math.log(wear.known), spread: 0 };
  const { perYear, spread, least, age, ageSpread } = prior.unknownWear;
  const median = Math.max(least, perYear * (wear.madeYearsAgo ?? age));
  const wider = wear.madeYearsAgo === undefined ? ageSpread : 0;
  return { base: Math.log(median), spread: Math.hypot(spread, wider) };
}

function ageNodes(spread: number, step: number, fineness: number): Lattice['ages'] {
  if (spread === 0) return [{ offset: 0, weight: 1 }];
  const stride = Math.max(1, Math.round(spread / AGES_PER_SPREAD / fineness / step));
  const half = Math.ceil((AGE_REACH * spread) / (stride * step));
  const nodes = Array.from({ length: 2 * half + 1 }, (_, i) => (i - half) * stride);
  return normalised(nodes.map((offset) => ({ offset, weight: bell((offset * step) / spread) })));
}

function normalNodes(count: number): { z: number; weight: number }[] {
  const nodes = Array.from({ length: count }, (_, i) => REACH * ((2 * i) / (count - 1) - 1));
  return normalised(nodes.map((z) => ({ z, weight: bell(z) })));
}

/** Fine lattice points around a lognormal's median, out to the reach. */
function lognormalNodes(
  fine: number,
  base: number,
  { median, spread }: { median: number; spread: number },
): LogNodes {
  const centre = Math.log(median) - base;
  const first = Math.ceil((centre - REACH * spread) / fine);
  const last = Math.floor((centre + REACH * spread) / fine);
  const weights = new Float64Array(last - first + 1);
  let sum = 0;
  for (let i = 0; i < weights.length; i++) {
    const weight = bell(((first + i) * fine - centre) / spread);
    weights[i] = weight;
    sum += weight;
  }
  const logWeights = new Float64Array(weights.length);
  for (let i = 0; i < weights.length; i++) logWeights[i] = Math.log((weights[i] ?? 0) / sum);
  return { first, logWeights };
}

const bell = (z: number): number => Math.exp(-0.5 * z * z);

function normalised<T extends { weight: number }>(nodes: T[]): T[] {
  const sum = nodes.reduce((total, node) => total + node.weight, 0);
  return nodes.map((node) => ({ ...node, weight: node.weight / sum }));
}

/** Terms this much smaller than the largest change no reported figure. */
export const NEGLIGIBLE = 1e-4;

export function logSum(logs: ArrayLike<number>): number {
  let most = -Infinity;
  for (let i = 0; i < logs.length; i++) most = Math.max(most, logs[i] ?? most);
  if (most === -Infinity) return most;
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += Math.exp((logs[i] ?? -Infinity) - most);
  return most + Math.log(sum);
}

/**
 * Everything that depends only on ratios to the wear so far: for ρ = r / A = e^(q·fine), the evidence and the survival
 * of τ = t / A, with the shape integrated out. Each ρ is worked out once, when first needed.
 */
export class Ratios {
  readonly #grid: Lattice;
  readonly #evidence: { readonly seen: number; readonly failed: number };
  readonly #due: DueHazard;
  readonly #logWeights: Float64Array;
  readonly #known = new Map<number, { readonly logEvidence: number; readonly terms: Float64Array }>();
  readonly #curves = new Map<number, Float64Array>();

  constructor(grid: Lattice, evidence: { readonly seen: number; readonly failed: number }, due: DueHazard) {
    this.#grid = grid;
    this.#evidence = evidence;
    this.#due = due;
    this.#logWeights = Float64Array.from(grid.shapes, ({ weight }) => Math.log(weight));
  }

  /** Evidence at ρ, and for each shape its ln share of it, not yet divided by the whole. */
  at(q: number): { readonly logEvidence: number; readonly terms: Float64Array } {
    const known = this.#known.get(q);
    if (known !== undefined) return known;
    const { failed, seen } = this.#evidence;
    const terms = weighedByEvidence(this.#logWeights, failed, seen, this.#grid.passed(q));
    const made = { logEvidence: logSum(terms), terms };
    this.#known.set(q, made);
    return made;
  }

  curve(q: number): Float64Array {
    const known = this.#curves.get(q);
    if (known !== undefined) return known;
    const length = this.#grid.growth[0]?.length ?? 0;
    const partly = new Float64Array(length);
    // weight that is certainly due from a point on, gathered where it starts and summed up once
    const surely = new Float64Array(length + 1);
    let certain = 0;
    const { log } = this.#grid.passed(q);
    const { logEvidence, terms } = this.at(q);
    for (let i = 0; i < terms.length; i++) {
      const weight = Math.exp((terms[i] ?? -Infinity) - logEvidence);
      if (weight < NEGLIGIBLE) continue;
      certain += weight;
      const from = addRise(partly, this.#grid.growth[i] ?? partly, this.#due, log[i] ?? 0, weight);
      surely[from] = (surely[from] ?? 0) + weight;
    }
    let due = 0;
    for (let i = 0; i < length; i++) {
      due += surely[i] ?? 0;
      partly[i] = (certain - due - (partly[i] ?? 0)) / certain;
    }
    this.#curves.set(q, partly);
    return partly;
  }
}

/**
 * Adds weight × P(due by τ) where that is neither 0 nor 1, and returns where it reaches 1. The further hazard at τ is
 * H((1 + τ)^k − 1).
 */
function addRise(
  sum: Float64Array,
  growth: Float64Array,
  { from, step, survival }: DueHazard,
  logHazard: number,
  weight: number,
): number {
  const last = survival.length - 1;
  let i = firstAbove(growth, from - logHazard);
  for (; i < sum.length; i++) {
    const x = ((growth[i] ?? 0) + logHazard - from) / step;
    const cell = Math.floor(x);
    if (cell >= last) break;
    const left = survival[cell] ?? 1;
    sum[i] = (sum[i] ?? 0) + weight * (1 - left - (x - cell) * ((survival[cell + 1] ?? 0) - left));
  }
  return i;
}

function firstAbove(ascending: Float64Array, bound: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] ?? 0) > bound) high = middle;
    else low = middle + 1;
  }
  return low;
}
