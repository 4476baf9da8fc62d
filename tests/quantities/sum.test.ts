import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exactly, type Range, repeated, sumIndependent, timesShared } from '../../src/quantities/range.ts';

const forecast: fc.Arbitrary<Range> = fc
  .tuple(
    fc.double({ min: 0, max: 50, noNaN: true }),
    fc.double({ min: 0, max: 20, noNaN: true }),
    fc.double({ min: 0, max: 40, noNaN: true }),
  )
  .map(([low, below, above]) => ({ low, likely: low + below, high: low + below + above }));

/** Normal forecasts as their 10th, 50th and 90th percentiles; 1.28155 from any table of the normal distribution. */
const normal = (mean: number, deviation: number): Range => ({
  low: mean - 1.28155 * deviation,
  likely: mean,
  high: mean + 1.28155 * deviation,
});

describe('the sum of independent forecasts', () => {
  test('normal forecasts: means add and variances add (textbook)', () => {
    const sum = sumIndependent([normal(10, 3), normal(20, 4)]);
    const exact = normal(30, 5);
    expect(sum.low).toBeCloseTo(exact.low, 9);
    expect(sum.likely).toBeCloseTo(exact.likely, 9);
    expect(sum.high).toBeCloseTo(exact.high, 9);
  });

  test.each([
    [2, 8, 3.49, 13.362],
    [5, 20, 12.443, 28.412],
    [10, 40, 29.051, 51.805],
  ])(
    '%d chi-square variables of 4 degrees make one of %d, which leans to the high side',
    (terms, mean, low, high) => {
      // NIST/SEMATECH e-Handbook 1.3.6.7.4, critical values of chi-square: 10 % and 90 %
      const sum = sumIndependent(
        Array.from({ length: terms }, () => ({ low: 1.064, likely: 4, high: 7.779 })),
      );
      expect(sum.likely).toBe(mean);
      // To a twentieth of the range; taken as symmetric it would be off by more at the low side or the high.
      expect(Math.abs(sum.low - low)).toBeLessThan(0.06 * (high - low));
      expect(Math.abs(sum.high - high)).toBeLessThan(0.06 * (high - low));
      expect(sum.high - mean).toBeGreaterThan(mean - sum.low);
    },
  );

  test.each([2, 5, 12])('agrees with a simulation of %d skewed forecasts', (terms) => {
    // Lognormal with median 1 and log-spread 0.5: percentiles e^(±1.28155 × 0.5), mean e^0.125. 40,000 trials.
    const one: Range = { low: Math.exp(-0.640776), likely: Math.exp(0.125), high: Math.exp(0.640776) };
    let seed = 20261125;
    const uniform = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return (seed + 0.5) / 4294967296;
    };
    const gauss = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const sums = Array.from({ length: 40_000 }, () => {
      let sum = 0;
      for (let i = 0; i < terms; i += 1) sum += Math.exp(0.5 * gauss());
      return sum;
    }).sort((a, b) => a - b);
    const sum = sumIndependent(Array.from({ length: terms }, () => one));
    expect(Math.abs(sum.low / (sums[4000] ?? 0) - 1)).toBeLessThan(0.04);
    expect(Math.abs(sum.high / (sums[36_000] ?? 0) - 1)).toBeLessThan(0.04);
    expect(Math.abs(sum.likely / (sums.reduce((a, b) => a + b, 0) / sums.length) - 1)).toBeLessThan(0.01);
  });

  test('lies between all going well and all going badly, in order', () => {
    fc.assert(
      fc.property(fc.array(forecast, { minLength: 1, maxLength: 8 }), (ranges) => {
        const sum = sumIndependent(ranges);
        const lows = ranges.reduce((total, { low }) => total + low, 0);
        const highs = ranges.reduce((total, { high }) => total + high, 0);
        expect(sum.low).toBeGreaterThanOrEqual(lows - 1e-9);
        expect(sum.high).toBeLessThanOrEqual(highs + 1e-9);
        expect(sum.low).toBeLessThanOrEqual(sum.likely + 1e-9);
        expect(sum.likely).toBeLessThanOrEqual(sum.high + 1e-9);
      }),
    );
  });

  test('is narrower, for its size, the more forecasts there are', () => {
    const relative = (n: number): number => {
      const sum = sumIndependent(Array.from({ length: n }, () => ({ low: 1, likely: 2, high: 4 })));
      return (sum.high - sum.low) / sum.likely;
    };
    expect(relative(16)).toBeLessThan(0.55 * relative(4));
  });

  test('one forecast is itself, certain ones only shift it, none is nothing', () => {
    const range = { low: 1, likely: 2, high: 5 };
    expect(sumIndependent([range])).toEqual(range);
    expect(sumIndependent([range, exactly(3)])).toEqual({ low: 4, likely: 5, high: 8 });
    expect(sumIndependent([])).toEqual(exactly(0));
  });
});

describe('so many of one thing', () => {
  const each: Range = { low: 1, likely: 2, high: 4 };

  test('all alike: the whole range as often', () => {
    expect(repeated(each, 10, 1)).toEqual({ low: 10, likely: 20, high: 40 });
  });

  test('independent: the spread grows with the root of the count (textbook)', () => {
    const sum = repeated(each, 100, 0);
    expect(sum.likely).toBe(200);
    expect(sum.high - sum.likely).toBeCloseTo(2 * 10, 9);
    expect(sum.likely - sum.low).toBeCloseTo(1 * 10, 9);
  });

  test('variance with correlation r is n + n(n − 1)r times that of one (textbook)', () => {
    const n = 14;
    const sum = repeated(each, n, 0.5);
    expect(((sum.high - sum.likely) / 2) ** 2).toBeCloseTo(n + n * (n - 1) * 0.5, 9);
  });

  test('part of one is scaled', () => {
    expect(repeated(each, 0.5, 0.3)).toEqual({ low: 0.5, likely: 1, high: 2 });
  });
});

describe('a factor that all terms share', () => {
  test('spreads add in quadrature on the log scale (textbook: product of lognormals)', () => {
    const z = 1.2815515655446004;
    const range: Range = { low: Math.exp(-0.3 * z), likely: 1, high: Math.exp(0.3 * z) };
    const both = timesShared(range, 0.4);
    expect(both.high).toBeCloseTo(Math.exp(0.5 * z), 12);
    expect(both.low).toBeCloseTo(Math.exp(-0.5 * z), 12);
    expect(both.likely).toBe(1);
  });

  test('does not shrink with the number of operations', () => {
    const many = sumIndependent(Array.from({ length: 400 }, () => ({ low: 1, likely: 2, high: 4 })));
    const shared = timesShared(many, 0.2);
    expect(shared.high / shared.likely).toBeGreaterThan(Math.exp(0.2 * 1.28));
  });

  test('nothing stays nothing, and what may be nothing keeps its low', () => {
    expect(timesShared(exactly(0), 0.3)).toEqual(exactly(0));
    expect(timesShared({ low: 0, likely: 1, high: 2 }, 0.3).low).toBe(0);
  });
});
