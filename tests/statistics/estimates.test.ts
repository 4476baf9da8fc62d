import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cohenKappa, fleissKappa, krippendorffAlpha } from '../../src/statistics/agreement.ts';
import { clopperPearson, wilson } from '../../src/statistics/intervals.ts';
import {
  kaplanMeier,
  likelihoodRatioLimits,
  logRank,
  survivalAt,
} from '../../src/statistics/kaplan-meier.ts';

describe('intervals', () => {
  it('hold the share seen, and the exact one never falls short of the score one by much', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (seen, part) => {
          const failed = Math.round(part * seen);
          for (const { low, high } of [clopperPearson(failed, seen, 0.8), wilson(failed, seen, 0.8)]) {
            expect(low).toBeLessThanOrEqual(failed / seen + 1e-12);
            expect(high).toBeGreaterThanOrEqual(failed / seen - 1e-12);
            expect(low).toBeGreaterThanOrEqual(0);
            expect(high).toBeLessThanOrEqual(1);
          }
        },
      ),
    );
  });
  it('refuse counts that cannot be', () => {
    for (const [failed, seen] of [
      [3, 2],
      [-1, 5],
      [0, 0],
      [1.5, 3],
    ] as const) {
      expect(() => clopperPearson(failed, seen, 0.8)).toThrow('whole counts');
      expect(() => wilson(failed, seen, 0.8)).toThrow('whole counts');
    }
  });
});

describe('survival curves', () => {
  const lives = [2, 3, 3, 5].map((time) => ({ time, failed: true }));
  it('are plain shares where nothing is lost from view', () => {
    const steps = kaplanMeier(lives);
    expect(steps.map(({ survival }) => survival)).toEqual([0.75, 0.25, 0]);
    // Greenwood’s error is then the binomial one
    expect(steps[1]?.standardError).toBeCloseTo(Math.sqrt((0.25 * 0.75) / 4), 12);
    expect(survivalAt(steps, 1)).toBe(1);
    expect(likelihoodRatioLimits(steps, 9, 0.95).low).toBe(0);
    expect(likelihoodRatioLimits(steps, 1, 0.95)).toEqual({ low: 1, high: 1 });
  });
  it('count weights like repeats', () => {
    expect(
      kaplanMeier([
        { time: 2, failed: true },
        { time: 3, failed: true, count: 2 },
        { time: 5, failed: true },
      ]),
    ).toEqual(kaplanMeier(lives));
  });
  it('cannot be told apart from themselves', () => {
    expect(logRank(lives, lives).chiSquared).toBeCloseTo(0, 12);
    expect(logRank(lives, []).pValue).toBe(1);
  });
});

describe('agreement', () => {
  it('is one where all agree and undefined where nothing varies', () => {
    expect(
      cohenKappa([
        [4, 0],
        [0, 6],
      ]).kappa,
    ).toBe(1);
    expect(
      cohenKappa([
        [4, 0],
        [0, 0],
      ]).kappa,
    ).toBeUndefined();
    expect(
      fleissKappa([
        [3, 0],
        [0, 3],
      ]).kappa,
    ).toBe(1);
    expect(
      krippendorffAlpha(
        [
          [1, 2, 4],
          [1, 2, 4],
        ],
        'ordinal',
      ),
    ).toBe(1);
  });
  it('refuses tables that cannot be', () => {
    expect(() => cohenKappa([[1, 2]])).toThrow('square');
    expect(() => cohenKappa([[0]])).toThrow('square');
    expect(() =>
      fleissKappa([
        [2, 1],
        [2, 2],
      ]),
    ).toThrow('same number');
  });
  // With two observers, nothing missing and many units alpha nears Scott’s pi, and Fleiss’ kappa is its pi form:
  // alpha = 1 − (1 − pi)(1 − 1/n), n values in all (Krippendorff 2011, from memory).
  it('ties alpha to Fleiss’ kappa for two observers', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 2 })), {
          minLength: 4,
          maxLength: 40,
        }),
        (pairs) => {
          const kappa = fleissKappa(
            pairs.map(([a, b]) => [0, 1, 2].map((c) => Number(a === c) + Number(b === c))),
          ).kappa;
          const alpha = krippendorffAlpha([pairs.map(([a]) => a), pairs.map(([, b]) => b)], 'nominal');
          if (kappa === undefined) expect(alpha).toBeUndefined();
          else expect(alpha).toBeCloseTo(1 - (1 - kappa) * (1 - 1 / (2 * pairs.length)), 10);
        },
      ),
    );
  });
});
