import { describe, expect, it } from 'vitest';
import { betaQuantile } from '../../src/statistics/beta.ts';
import { gamma, upperGamma } from '../../src/statistics/gamma.ts';
import { clopperPearson } from '../../src/statistics/intervals.ts';
import { kaplanMeier, survivalAt } from '../../src/statistics/kaplan-meier.ts';
import { failedAt, wholeAt } from '../../src/statistics/life-data.ts';
import { fitWeibull } from '../../src/statistics/life-fit.ts';
import { weibullHazard, weibullSurvival } from '../../src/statistics/weibull.ts';

/** Where a falling function passes `level`, by halving. */
const crossing = (f: (x: number) => number, level: number, low: number, high: number): number => {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (f(middle) > level) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
};

/** The largest value of a function with one peak, by thirds. */
const peak = (f: (x: number) => number, low: number, high: number): { at: number; value: number } => {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const [left, right] = [a + (b - a) / 3, b - (b - a) / 3];
    if (f(left) < f(right)) a = left;
    else b = right;
  }
  return { at: (a + b) / 2, value: f((a + b) / 2) };
};

describe('the hazard of a Weibull life', () => {
  // NIST/SEMATECH e-Handbook 8.1.6.2, itl.nist.gov. Its formula reads (γ/t)(t/α)^γ; the alternative text of the stored
  // page misprints (γ/t)(t/α)^(γ−1), which is not the density over the survival.
  const life = { scale: 606.528, shape: 1.7208 };
  const density = (t: number): number =>
    (weibullSurvival(life, t - 1e-3) - weibullSurvival(life, t + 1e-3)) / 2e-3;

  it('is density over survival, (γ/t)(t/α)^γ, and not as the alternative text misprints it', () => {
    for (const t of [50, 300, 900]) {
      const ratio = t / life.scale;
      expect(weibullHazard(life, t)).toBeCloseTo((life.shape / t) * ratio ** life.shape, 12);
      expect(Math.abs(weibullHazard(life, t) / (density(t) / weibullSurvival(life, t)) - 1)).toBeLessThan(
        1e-6,
      );
      const misprint = (life.shape / t) * ratio ** (life.shape - 1);
      expect(Math.abs(misprint / weibullHazard(life, t) - 1)).toBeGreaterThan(0.3);
    }
  });
});

describe('a gamma prior on a steady failure rate', () => {
  // NIST/SEMATECH e-Handbook 8.4.6 and 8.3.1.5, itl.nist.gov: formulas read there, the worked example from memory. Prior
  // a = 2, b = 1400 h; two failures in 1909 h; then a = 4, b = 3309.
  const atLeast = (a: number, x: number): number => upperGamma(a, x) / gamma(a);
  const quantile = (a: number, p: number): number => crossing((x) => atLeast(a, x), 1 - p, 0, 100);

  it('needs a test of 1909 h to confirm 600 h at 80 %', () => {
    expect(600 * quantile(4, 0.8) - 1400).toBeCloseTo(1909.03, 1);
  });

  it('gives the median 901 h, the reciprocal mean 827 h and lower bounds of 600, 495 and 427 h', () => {
    expect(3309 / quantile(4, 0.5)).toBeCloseTo(901.13, 1);
    expect(3309 / 4).toBeCloseTo(827.25, 12);
    for (const [level, bound] of [
      [0.8, 599.995],
      [0.9, 495.3],
      [0.95, 426.77],
    ] as const)
      expect(3309 / quantile(4, level)).toBeCloseTo(bound, 2);
    expect(1 - atLeast(4, 3309 / 600)).toBeCloseTo(0.79999, 4);
  });

  it('is elicited from a likely 600 h and a low 250 h as a = 2.863, b = 1522.46', () => {
    // NIST 8.2.5, "50/95", from memory: half the chance above 600 h, 95 % above 250 h; b by that page's rounding
    const ratio = (a: number): number => quantile(a, 0.95) / quantile(a, 0.5);
    const a = crossing(ratio, 600 / 250, 1, 10);
    expect(a).toBeCloseTo(2.863, 3);
    expect(Math.abs(600 * quantile(a, 0.5) - 1522.46)).toBeLessThan(0.1);
  });
});

describe('how many must be looked at to find nothing', () => {
  const enough = (n: number, reliability: number, confidence: number): boolean =>
    clopperPearson(0, n, 2 * confidence - 1).high <= 1 - reliability + 1e-12;

  // n = ln(1 − C) ÷ ln R rounded up; the classic table from memory. 2995 read in the documentation of a reliability
  // library, reliability.readthedocs.io (sample size required for no failures).
  it.each([
    [90, 90, 22],
    [95, 90, 29],
    [95, 95, 59],
    [90, 95, 45],
    [95, 99, 299],
    [99, 90, 44],
    [95, 99.9, 2995],
  ])('confidence %d %%, reliability %d %%: %i', (confidence, reliability, n) => {
    expect(enough(n, reliability / 100, confidence / 100)).toBe(true);
    expect(enough(n - 1, reliability / 100, confidence / 100)).toBe(false);
  });

  it('is fewer by the same page where each is followed for three lifetimes: 999', () => {
    // three lifetimes at shape 1 ask a reliability of 0.999³ of each
    expect(enough(999, 0.999 ** 3, 0.95)).toBe(true);
    expect(enough(998, 0.999 ** 3, 0.95)).toBe(false);
  });

  // codingace.net, success run theorem: (1 − C)^(1/(n + 1)), which is a flat prior's bound and asks one fewer.
  it.each([
    [10, 90, 0.811131],
    [29, 95, 0.904966],
    [59, 95, 0.951297],
    [99, 99, 0.954993],
  ])(
    '%i whole at %d %%: %d by the variant with a flat prior, more than the exact bound',
    (n, confidence, printed) => {
      const flat = betaQuantile(1 - confidence / 100, n + 1, 1);
      expect(flat).toBeCloseTo(printed, 6);
      expect(flat).toBeGreaterThan(1 - clopperPearson(0, n, (2 * confidence) / 100 - 1).high);
    },
  );
});

describe('6-MP remission times, one shape for both arms', () => {
  // Freireich et al. 1963, Blood 21:699–716. The textbook model's log-time coefficient 1.267, scale 0.732 and hazard
  // ratio 0.177 from memory; further decimals computed with numpy/scipy.
  const failed = [6, 6, 6, 7, 10, 13, 16, 22, 23];
  const lost = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
  const placebo = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];
  // With one shape the arms differ by a stretch of time alone: stretch the placebo until both fit one Weibull best.
  const stretched = (coefficient: number) =>
    fitWeibull([
      ...failed.map((t) => failedAt(t)),
      ...lost.map((t) => wholeAt(t)),
      ...placebo.map((t) => failedAt(t * Math.exp(coefficient))),
    ]);
  const best = peak((c) => (stretched(c)?.logLikelihood ?? -Infinity) + placebo.length * c, 0, 3);

  it('fits as in the textbooks', () => {
    expect(best.at).toBeCloseTo(1.26733, 4);
    expect(best.value).toBeCloseTo(-106.5795, 4);
    const shape = stretched(best.at)?.shape ?? 0;
    expect(shape).toBeCloseTo(1.36576, 4);
    expect(1 / shape).toBeCloseTo(0.732, 3);
    expect(Math.exp(-shape * best.at)).toBeCloseTo(0.177, 3);
  });
});

describe('bearing cages: bounds on the life of a tenth', () => {
  // Abernethy 1983; Meeker & Escobar 1998, Example 8.16, as in the tests of the R package weibullpp: 95 % likelihood-ratio
  // bounds of B10 are 2093 and 22144 h.
  const failures = [230, 334, 423, 990, 1009, 1510];
  const survivors = (
    '50:288 150:148 250:124 350:111 450:106 550:99 650:110 750:114 850:119 950:127 1050:123 ' +
    '1150:93 1250:47 1350:41 1450:27 1550:11 1650:6 1850:1 2050:2'
  )
    .split(' ')
    .map((each) => each.split(':').map(Number));
  const logLikelihood = (shape: number, b10: number): number => {
    const life = { shape, scale: b10 / (-Math.log(0.9)) ** (1 / shape) };
    return (
      failures.reduce((sum, t) => sum + Math.log(weibullHazard(life, t) * weibullSurvival(life, t)), 0) +
      survivors.reduce((sum, [t = 0, count = 0]) => sum + count * Math.log(weibullSurvival(life, t)), 0)
    );
  };
  const profile = (b10: number): number => peak((shape) => logLikelihood(shape, b10), 0.5, 8).value;

  // to a thousandth of themselves: the published ones come from a search along the contour
  it('lie where twice the log-likelihood has fallen by 3.841', () => {
    const limit = profile(3903.13) - 3.841459 / 2;
    expect(Math.abs(crossing((b) => -profile(b), -limit, 1000, 3903) / 2093 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(crossing(profile, limit, 3904, 60_000) / 22_144 - 1)).toBeLessThan(1e-3);
  });
});

describe('shares failed without a model', () => {
  it('turbine parts read out at intervals: the shares of 167 that had cracked by each end', () => {
    // Nelson 1982 p. 415; data read in the SAS/QC documentation, shares computed
    const ends = [6.12, 19.92, 29.64, 35.4, 39.72, 45.24, 52.32, 63.48];
    const cracks = [5, 16, 12, 18, 18, 2, 6, 17];
    const steps = kaplanMeier([
      ...ends.map((time, i) => ({ time, failed: true, count: cracks[i] ?? 0 })),
      { time: 63.48, failed: false, count: 73 },
    ]);
    for (const [i, share] of [0.0299, 0.1257, 0.1976, 0.3054, 0.4132, 0.4251, 0.4611, 0.5629].entries())
      expect(1 - survivalAt(steps, ends[i] ?? 0)).toBeCloseTo(share, 4);
  });

  it('heat-exchanger tubes: 1, 2 and 2 of 100 cracked in three years, 1, 3 and 5 %', () => {
    // Meeker & Escobar 1998 ch. 3, plant 1, at studylib.net 10757309
    const steps = kaplanMeier([
      { time: 1, failed: true, count: 1 },
      { time: 2, failed: true, count: 2 },
      { time: 3, failed: true, count: 2 },
      { time: 3, failed: false, count: 95 },
    ]);
    for (const [year, share] of [
      [1, 0.01],
      [2, 0.03],
      [3, 0.05],
    ] as const)
      expect(1 - survivalAt(steps, year)).toBeCloseTo(share, 12);
  });
});
