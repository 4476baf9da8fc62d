import type { Followed } from './kaplan-meier.ts';
import { chiSquared1Tail } from './normal.ts';

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
