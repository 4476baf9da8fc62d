import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import fc from 'fast-check';
import { jStat } from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  betaQuantile,
  chiSquared1Quantile,
  chiSquared1Tail,
  clopperPearson,
  normalCdf,
  normalQuantile,
} from '../../src/statistics/intervals.ts';

/** Another library’s functions at random parameters. Where the two differ by more, the note says which is off. */
const RUNS = { numRuns: 300, seed: 20261125 };
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const probability = real(0.001, 0.999);
const close = (a: number, b: number, relative: number): void => {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(1e-12, Math.abs(a), Math.abs(b)));
};

describe('distribution functions agree with a second library', () => {
  it('beta', () => {
    fc.assert(
      fc.property(real(0.5, 300), real(0.5, 300), probability, (a, b, p) => {
        // jstat is off by up to 6e-8 in the quantile and 4e-8 in the cdf (measured): absolute, on 0…1
        expect(Math.abs(betaQuantile(p, a, b) - jStat.beta.inv(p, a, b))).toBeLessThan(1e-7);
        expect(Math.abs(betaCdf(p, a, b) - jStat.beta.cdf(p, a, b))).toBeLessThan(1e-7);
        // our own pair undo each other closely
        expect(Math.abs(betaCdf(betaQuantile(p, a, b), a, b) - p)).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('normal', () => {
    fc.assert(
      fc.property(real(-6, 6), probability, (z, p) => {
        expect(Math.abs(normalCdf(z) - jStat.normal.cdf(z, 0, 1))).toBeLessThan(1e-9);
        expect(Math.abs(normalQuantile(p) - jStat.normal.inv(p, 0, 1))).toBeLessThan(1e-8);
        close(normalCdf(normalQuantile(p)), p, 1e-12);
        close(chiSquared1Tail(chiSquared1Quantile(p)), 1 - p, 1e-10);
      }),
      RUNS,
    );
  });
});

describe('closed forms', () => {
  it('the arcsine law', () => {
    for (const x of [0.01, 0.3, 0.5, 0.97]) {
      expect(betaCdf(x, 0.5, 0.5)).toBeCloseTo((2 / Math.PI) * Math.asin(Math.sqrt(x)), 14);
    }
  });
});

describe('exact interval', () => {
  // By definition: at each limit the observed count or beyond has probability (1 − level) / 2.
  it('leaves the stated chance in each binomial tail', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), real(0, 1), real(0.5, 0.99), (seen, part, level) => {
        const failed = Math.round(part * seen);
        const { low, high } = clopperPearson(failed, seen, level);
        const tail = (1 - level) / 2;
        if (failed > 0) expect(upTo(failed - 1, seen, low)).toBeCloseTo(1 - tail, 9);
        if (failed < seen) expect(upTo(failed, seen, high)).toBeCloseTo(tail, 9);
      }),
      RUNS,
    );
  });
});

/** P(X ≤ x), X ~ Binomial(n, p), by plain summation. */
function upTo(x: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let sum = term;
  for (let k = 1; k <= x; k++) {
    term *= ((n - k + 1) / k) * (p / (1 - p));
    sum += term;
  }
  return sum;
}
