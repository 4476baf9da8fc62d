import { chiSquared1Quantile, chiSquared1Tail, type Interval } from './intervals.ts';

/** `count` lives followed until `time`; `failed` says whether they ended then or were only lost from view. */
export interface Followed {
  readonly time: number;
  readonly failed: boolean;
  readonly count?: number;
}

/** One time at which something failed. */
export interface KaplanMeierStep {
  readonly time: number;
  /** Still whole and in view just before. */
  readonly atRisk: number;
  readonly failures: number;
  readonly survival: number;
  /** Greenwood's standard error of `survival`; 0 where nothing is left. */
  readonly standardError: number;
}

/**
 * Product-limit estimate, steps in order of time. Lives lost from view at a failure time count as at risk there.
 * NIST/SEMATECH e-Handbook 8.2.1.5; Greenwood's formula for the error.
 */
export function kaplanMeier(lives: readonly Followed[]): readonly KaplanMeierStep[] {
  const times = [...new Set(lives.filter((life) => life.failed).map((life) => life.time))].sort(
    (a, b) => a - b,
  );
  let survival = 1;
  let greenwood = 0;
  return times.map((time) => {
    let atRisk = 0;
    let failures = 0;
    for (const life of lives) {
      const count = life.count ?? 1;
      if (life.time >= time) atRisk += count;
      if (life.time === time && life.failed) failures += count;
    }
    survival *= (atRisk - failures) / atRisk;
    greenwood += failures / (atRisk * (atRisk - failures));
    const standardError = survival === 0 ? 0 : survival * Math.sqrt(greenwood);
    return { time, atRisk, failures, survival, standardError };
  });
}

/** Survival at a time: 1 before the first failure, then the last step's. */
export function survivalAt(steps: readonly KaplanMeierStep[], time: number): number {
  return steps.filter((step) => step.time <= time).at(-1)?.survival ?? 1;
}

/**
 * Likelihood-ratio limits for survival at a time (Thomas & Grunkemeier 1975): the values of survival for which the
 * constrained maximum of the product-limit likelihood falls short of the free one by no more than half a chi-squared
 * quantile on one degree of freedom. Unlike Greenwood's, they stay within 0…1.
 */
export function likelihoodRatioLimits(
  steps: readonly KaplanMeierStep[],
  time: number,
  level: number,
): Interval {
  const passed = steps.filter((step) => step.time <= time);
  if (passed.length === 0) return { low: 1, high: 1 };
  const quantile = chiSquared1Quantile(level);
  const high = survivalUnder(
    passed,
    solve(passed, quantile, (x) => x / (1 - x)),
  );
  if (survivalAt(passed, time) === 0) return { low: 0, high };
  // the constraint's multiplier cannot push a hazard past 1
  const floor = Math.max(...passed.map((step) => step.failures - step.atRisk));
  return {
    low: survivalUnder(
      passed,
      solve(passed, quantile, (x) => x * floor),
    ),
    high,
  };
}

const survivalUnder = (steps: readonly KaplanMeierStep[], multiplier: number): number =>
  steps.reduce((product, step) => product * (1 - step.failures / (step.atRisk + multiplier)), 1);

/** Twice the loss of log-likelihood when every hazard is d / (n + multiplier) instead of d / n. */
function deviance(steps: readonly KaplanMeierStep[], multiplier: number): number {
  let sum = 0;
  for (const { atRisk, failures } of steps) {
    const left = atRisk - failures;
    sum += atRisk * Math.log1p(multiplier / atRisk) - (left > 0 ? left * Math.log1p(multiplier / left) : 0);
  }
  return 2 * sum;
}

/** Bisection for the multiplier, mapped from 0…1, at which the deviance reaches the quantile; it grows on the way. */
function solve(
  steps: readonly KaplanMeierStep[],
  quantile: number,
  multiplier: (x: number) => number,
): number {
  let inside = 0;
  let outside = 1;
  for (let i = 0; i < 200; i++) {
    const middle = (inside + outside) / 2;
    if (deviance(steps, multiplier(middle)) < quantile) inside = middle;
    else outside = middle;
  }
  return multiplier(inside);
}

/** Failures of the first group against those expected if both groups failed alike. */
export interface LogRank {
  readonly observed: number;
  readonly expected: number;
  readonly variance: number;
  /** On one degree of freedom. */
  readonly chiSquared: number;
  readonly pValue: number;
}

/**
 * Two-sample log-rank test with the hypergeometric variance (Mantel–Haenszel), ties handled exactly. Where no failure
 * time has both groups at risk there is nothing to compare: chi-squared 0, p 1.
 */
export function logRank(first: readonly Followed[], second: readonly Followed[]): LogRank {
  const both = [...first, ...second];
  const times = new Set(both.filter((life) => life.failed).map((life) => life.time));
  let observed = 0;
  let expected = 0;
  let variance = 0;
  for (const time of times) {
    const mine = at(first, time);
    const others = at(second, time);
    const n = mine.atRisk + others.atRisk;
    const d = mine.failures + others.failures;
    observed += mine.failures;
    expected += (d * mine.atRisk) / n;
    if (n > 1) variance += (d * mine.atRisk * others.atRisk * (n - d)) / (n * n * (n - 1));
  }
  const chiSquared = variance > 0 ? (observed - expected) ** 2 / variance : 0;
  return { observed, expected, variance, chiSquared, pValue: chiSquared1Tail(chiSquared) };
}

function at(lives: readonly Followed[], time: number): { atRisk: number; failures: number } {
  let atRisk = 0;
  let failures = 0;
  for (const life of lives) {
    const count = life.count ?? 1;
    if (life.time >= time) atRisk += count;
    if (life.time === time && life.failed) failures += count;
  }
  return { atRisk, failures };
}
