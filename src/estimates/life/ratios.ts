import type { DueHazard } from './due-hazard.ts';
import { logLikelihood } from './evidence.ts';
import type { Lattice } from './lattice.ts';

/** Terms this much smaller than the largest change no reported figure. */
export const NEGLIGIBLE = 1e-5;

export function logSum(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most === -Infinity
    ? most
    : most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

/**
 * Everything that depends only on ratios to the wear so far: for ρ = r / A = e^(q·fine), the evidence and the survival
 * of τ = t / A, with the shape integrated out. Each ρ is worked out once, when first needed.
 */
export class Ratios {
  readonly #grid: Lattice;
  readonly #evidence: { readonly seen: number; readonly failed: number };
  readonly #due: DueHazard;
  readonly #known = new Map<
    number,
    { logEvidence: number; shapes: readonly (readonly [number, number])[] }
  >();
  readonly #curves = new Map<number, Float64Array>();

  constructor(grid: Lattice, evidence: { readonly seen: number; readonly failed: number }, due: DueHazard) {
    this.#grid = grid;
    this.#evidence = evidence;
    this.#due = due;
  }

  /** Evidence at ρ, and for each shape ln H with its share of that evidence. */
  at(q: number): { logEvidence: number; shapes: readonly (readonly [number, number])[] } {
    const known = this.#known.get(q);
    if (known !== undefined) return known;
    const hazards = this.#grid.logHazards(q);
    const { failed, seen } = this.#evidence;
    const terms = this.#grid.shapes.map(({ weight }, i) => {
      const logHazard = hazards[i] ?? 0;
      return [logHazard, Math.log(weight) + logLikelihood(failed, seen, Math.exp(logHazard))] as const;
    });
    const logEvidence = logSum(terms.map(([, term]) => term));
    const shapes = terms.map(([logHazard, term]) => [logHazard, Math.exp(term - logEvidence)] as const);
    const made = { logEvidence, shapes };
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
    for (const [i, [logHazard, weight]] of this.at(q).shapes.entries()) {
      if (weight < NEGLIGIBLE) continue;
      certain += weight;
      const from = addRise(partly, this.#grid.growth[i] ?? partly, this.#due, logHazard, weight);
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
