import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dueHazard } from '../../../src/estimates/life/due-hazard.ts';

describe('the hazard at which a repair is due', () => {
  // against the incomplete beta function of @stdlib: the j-th smallest of N uniforms is Beta(j, N − j + 1)
  it('has the survival of the j-th order statistic', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0.01, max: 0.3, noNaN: true }),
        (units, share) => {
          const j = Math.max(1, Math.ceil(share * units - 1e-9));
          const { from, step, survival } = dueHazard(units, share, 1);
          for (const [i, ours] of survival.entries()) {
            // P(U > u) = P(1 − U < 1 − u), 1 − U ~ Beta(N − j + 1, j)
            const theirs = betaCdf(Math.exp(-Math.exp(from + i * step)), units - j + 1, j);
            expect(Math.abs(ours - theirs)).toBeLessThan(1e-6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('tells about how widely its logarithm is spread', () => {
    const { from, step, survival, spread } = dueHazard(400, 0.05, 1);
    const at = (p: number): number => from + step * [...survival].findIndex((each) => each < p);
    // a normal distribution has 68.27 % within one standard deviation
    expect(spread).toBeCloseTo((at(0.1587) - at(0.8413)) / 2, 1);
  });
});
