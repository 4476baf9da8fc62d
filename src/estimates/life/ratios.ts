import type { DueHazard } from './due-hazard.ts';
import { weighedByEvidence } from './evidence.ts';
import type { Lattice } from './lattice.ts';

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
