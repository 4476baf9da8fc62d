import { describe, expect, it } from 'vitest';
import {
  type Followed,
  kaplanMeier,
  likelihoodRatioLimits,
  logRank,
  survivalAt,
} from '../../src/statistics/kaplan-meier.ts';

const failed = (time: number): Followed => ({ time, failed: true });
const lost = (time: number, count = 1): Followed => ({ time, failed: false, count });

describe('product-limit estimate of the NIST handbook', () => {
  // NIST/SEMATECH e-Handbook 8.2.1.5, itl.nist.gov: first two values read there, the rest follow its printed rule.
  it('steps down as printed', () => {
    const steps = kaplanMeier([
      ...[10, 32, 56, 98, 122, 181].map(failed),
      ...[50, 100, 125, 150].map((t) => lost(t)),
      lost(200, 10),
    ]);
    expect(steps.map((step) => step.atRisk)).toEqual([20, 19, 17, 16, 14, 11]);
    expect(steps[0]?.survival).toBeCloseTo(19 / 20, 12);
    expect(steps[1]?.survival).toBeCloseTo((19 / 20) * (18 / 19), 12);
    for (const [i, value] of [0.95, 0.9, 0.8471, 0.7941, 0.7374, 0.6704].entries()) {
      expect(steps[i]?.survival).toBeCloseTo(value, 4);
    }
  });
});

// Freireich et al. 1963, Blood 21:699–716: weeks of remission. Numbers read in several public test files; described at
// the University of Oslo, mn.uio.no.
const treated = [
  ...[6, 6, 6, 7, 10, 13, 16, 22, 23].map(failed),
  ...[6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((t) => lost(t)),
];
const placebo = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23].map(failed);

describe('6-MP remission times', () => {
  const steps = kaplanMeier(treated);
  // At-risk column, S(22) = 0.538, S(23) = 0.448: Kleinbaum & Klein, Survival Analysis, 3rd ed., ch. 2, as
  // quoted in public test files. Greenwood errors computed.
  it('gives the textbook’s table', () => {
    expect(steps.map((step) => step.atRisk)).toEqual([21, 17, 15, 12, 11, 7, 6]);
    expect(survivalAt(steps, 22)).toBeCloseTo(0.538, 3);
    expect(survivalAt(steps, 23)).toBeCloseTo(0.448, 3);
    for (const [i, error] of [0.0764, 0.0869, 0.0963, 0.1068, 0.1141, 0.1282, 0.1346].entries()) {
      expect(steps[i]?.standardError).toBeCloseTo(error, 4);
    }
  });
  // Thomas & Grunkemeier 1975, J. Am. Stat. Assoc., Table 1, as quoted in public test files.
  it.each([
    ['6-MP', treated, 10, 0.753, [0.54, 0.904], [0.576, 0.885]],
    ['placebo', placebo, 10, 0.381, [0.196, 0.593], [0.222, 0.56]],
    ['6-MP', treated, 20, 0.628, [0.395, 0.821], [0.432, 0.795]],
    ['placebo', placebo, 20, 0.095, [0.016, 0.266], [0.023, 0.233]],
  ] as const)('has the published likelihood-ratio limits, %s', (_arm, lives, time, survival, at95, at90) => {
    const curve = kaplanMeier(lives);
    // printed to three decimals, and 0.6275 (32/51) was printed as 0.628
    expect(Math.abs(survivalAt(curve, time) - survival)).toBeLessThan(6e-4);
    for (const [level, limits] of [
      [0.95, at95],
      [0.9, at90],
    ] as const) {
      const { low, high } = likelihoodRatioLimits(curve, time, level);
      expect(Math.abs(low - limits[0])).toBeLessThan(6e-4);
      expect(Math.abs(high - limits[1])).toBeLessThan(6e-4);
    }
  });
  // Log-rank 16.79 on one degree of freedom: standard textbook value, read in public test files as 16.79294.
  it('gives the published log-rank statistic', () => {
    const test = logRank(treated, placebo);
    expect(test.observed).toBe(9);
    expect(test.expected).toBeCloseTo(19.2505, 4);
    expect(test.variance).toBeCloseTo(6.257, 4);
    expect(test.chiSquared).toBeCloseTo(16.79294, 4);
    expect(test.pValue).toBeLessThan(1e-4);
  });
  it('is the same whichever group comes first', () => {
    expect(logRank(placebo, treated).chiSquared).toBeCloseTo(16.79294, 4);
  });
});
