import { describe, expect, it } from 'vitest';
import { betaQuantile, clopperPearson } from '../../src/statistics/intervals.ts';
import { kaplanMeier, survivalAt } from '../../src/statistics/kaplan-meier.ts';

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
