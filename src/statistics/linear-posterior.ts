import { seeded } from './seeded.ts';

/** One observation: what it says of a weighted sum of coefficients. */
export interface LinearDatum {
  /** Weight of each coefficient in the sum. */
  readonly weights: readonly number[];
  /** Log-likelihood of what was observed, given the sum. */
  readonly logLikelihood: (sum: number) => number;
}

/** Weighted draws from the posterior of the coefficients. */
export interface LinearPosterior {
  /** (Σw)² ÷ Σw²: how many independent draws the weighted ones are worth. */
  readonly effectiveSize: number;
  readonly draws: readonly { readonly coefficients: readonly number[]; readonly weight: number }[];
  mean(coefficient: number): number;
  quantile(coefficient: number, share: number): number;
}

const SEED = 8202611;
/** Degrees of freedom of the proposal: heavier tails than the posterior can have under normal priors. */
const FREEDOM = 12;
const STEPS = 60;

/**
 * Posterior of coefficients with independent normal priors (mean 0, the given standard deviations) when every
 * observation depends on a weighted sum of them. Importance sampling: draws from a multivariate t about the mode, with
 * the curvature there, weighted by posterior ÷ proposal and normalised; seeded, so the same data give the same answer.
 */
export const linearPosterior = (
  data: readonly LinearDatum[],
  spreads: readonly number[],
  draws = 2000,
): LinearPosterior => {
  const logPosterior = (theta: readonly number[]): number => {
    let value = 0;
    for (const [j, spread] of spreads.entries()) value -= 0.5 * ((theta[j] ?? 0) / spread) ** 2;
    for (const { weights, logLikelihood } of data) value += logLikelihood(dot(weights, theta));
    return value;
  };
  const { mode, precision } = modeOf(data, spreads, logPosterior);
  const factor = cholesky(precision);
  const random = seeded(SEED);
  const found = Array.from({ length: draws }, () => {
    const z = spreads.map(() => random.normal());
    let chi = 0;
    for (let i = 0; i < FREEDOM; i += 1) chi += random.normal() ** 2;
    const stretch = Math.sqrt(FREEDOM / chi);
    const step = backSolve(factor, z);
    const coefficients = mode.map((at, j) => at + stretch * (step[j] ?? 0));
    const q = stretch * stretch * z.reduce((sum, one) => sum + one * one, 0);
    const logProposal = -((FREEDOM + spreads.length) / 2) * Math.log1p(q / FREEDOM);
    return { coefficients, log: logPosterior(coefficients) - logProposal };
  });
  const most = Math.max(...found.map(({ log }) => log));
  const raw = found.map(({ coefficients, log }) => ({ coefficients, weight: Math.exp(log - most) }));
  const total = raw.reduce((sum, { weight }) => sum + weight, 0);
  const weighted = raw.map(({ coefficients, weight }) => ({ coefficients, weight: weight / total }));
  return {
    effectiveSize: 1 / weighted.reduce((sum, { weight }) => sum + weight * weight, 0),
    draws: weighted,
    mean: (j) => weighted.reduce((sum, { coefficients, weight }) => sum + weight * (coefficients[j] ?? 0), 0),
    quantile: (j, share) => {
      const sorted = weighted
        .map(({ coefficients, weight }) => ({ value: coefficients[j] ?? 0, weight }))
        .sort((a, b) => a.value - b.value);
      let passed = 0;
      for (const { value, weight } of sorted) {
        passed += weight;
        if (passed >= share) return value;
      }
      return sorted.at(-1)?.value ?? 0;
    },
  };
};

const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let j = 0; j < a.length; j += 1) sum += (a[j] ?? 0) * (b[j] ?? 0);
  return sum;
};

/** Half-width of the difference quotients along the sum. */
const EPSILON = 1e-3;

/** The mode by damped Newton steps, and the negative curvature there. */
const modeOf = (
  data: readonly LinearDatum[],
  spreads: readonly number[],
  logPosterior: (theta: readonly number[]) => number,
): { mode: number[]; precision: number[][] } => {
  let mode = spreads.map(() => 0);
  let value = logPosterior(mode);
  let precision = diagonal(spreads);
  for (let step = 0; step < STEPS; step += 1) {
    const gradient = mode.map((at, j) => -at / (spreads[j] ?? 1) ** 2);
    precision = diagonal(spreads);
    for (const { weights, logLikelihood } of data) {
      const sum = dot(weights, mode);
      const [low, here, high] = [
        logLikelihood(sum - EPSILON),
        logLikelihood(sum),
        logLikelihood(sum + EPSILON),
      ];
      const slope = (high - low) / (2 * EPSILON);
      // Where the likelihood curves upwards it tells nothing of the width of the proposal.
      const curve = Math.max(0, -(high - 2 * here + low) / EPSILON ** 2);
      for (const [i, a] of weights.entries()) {
        if (a === 0) continue;
        gradient[i] = (gradient[i] ?? 0) + slope * a;
        const row = precision[i];
        if (row === undefined) continue;
        for (const [j, b] of weights.entries()) row[j] = (row[j] ?? 0) + curve * a * b;
      }
    }
    const factor = cholesky(precision);
    const direction = backSolve(factor, forwardSolve(factor, gradient));
    let scale = 1;
    let next = mode;
    let reached = Number.NEGATIVE_INFINITY;
    while (scale > 1e-6) {
      next = mode.map((at, j) => at + scale * (direction[j] ?? 0));
      reached = logPosterior(next);
      if (reached >= value) break;
      scale /= 2;
    }
    if (!(reached > value + 1e-9)) break;
    mode = next;
    value = reached;
  }
  return { mode, precision };
};

const diagonal = (spreads: readonly number[]): number[][] =>
  spreads.map((spread, i) => spreads.map((_, j) => (i === j ? 1 / spread ** 2 : 0)));

/** Lower triangle L with L·Lᵀ = the matrix, which is positive definite here because every prior is proper. */
const cholesky = (matrix: readonly (readonly number[])[]): number[][] => {
  const lower = matrix.map((row) => row.map(() => 0));
  for (const [i, row] of matrix.entries()) {
    for (let j = 0; j <= i; j += 1) {
      let sum = row[j] ?? 0;
      for (let k = 0; k < j; k += 1) sum -= (lower[i]?.[k] ?? 0) * (lower[j]?.[k] ?? 0);
      const target = lower[i];
      if (target !== undefined) target[j] = i === j ? Math.sqrt(sum) : sum / (lower[j]?.[j] ?? 1);
    }
  }
  return lower;
};

/** Solves L·y = b. */
const forwardSolve = (lower: readonly (readonly number[])[], b: readonly number[]): number[] => {
  const y: number[] = [];
  for (const [i, row] of lower.entries()) {
    let sum = b[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (row[k] ?? 0) * (y[k] ?? 0);
    y.push(sum / (row[i] ?? 1));
  }
  return y;
};

/** Solves Lᵀ·x = b. */
const backSolve = (lower: readonly (readonly number[])[], b: readonly number[]): number[] => {
  const x = b.map(() => 0);
  for (let i = b.length - 1; i >= 0; i -= 1) {
    let sum = b[i] ?? 0;
    for (let k = i + 1; k < b.length; k += 1) sum -= (lower[k]?.[i] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (lower[i]?.[i] ?? 1);
  }
  return x;
};
