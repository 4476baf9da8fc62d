import { describe, expect, it } from 'vitest';
import { joinFacts } from '../../src/findings/join-facts.ts';
import type { SurveyedJoins } from '../../src/findings/surveyed.ts';

const joins = (open: number, inspected: number): SurveyedJoins => ({
  total: Math.max(1, inspected),
  inspected,
  open,
  thread: undefined,
  cloth: undefined,
  allowance: undefined,
  length: 10,
  openAt: [],
});

/** Chance of at most `k` of `n` at rate `p`, added up term by term: the definition the exact limits solve. */
const atMost = (k: number, n: number, p: number): number => {
  let term = (1 - p) ** n;
  let sum = term;
  for (let i = 1; i <= k; i += 1) {
    term *= ((n - i + 1) / i) * (p / (1 - p));
    sum += term;
  }
  return sum;
};

describe('the interval of the seam failure rate', () => {
  // NIST/SEMATECH e-Handbook 7.2.4.2: 4 of 20 at 90 %, method seen, limits 0.071354 and 0.401029 from memory.
  it('is the exact one of the NIST handbook: 4 of 20 at 90 %', () => {
    const facts = joinFacts(joins(4, 20), 0.9);
    expect(facts.join_failure_low).toBeCloseTo(0.071354, 5);
    expect(facts.join_failure_high).toBeCloseTo(0.401029, 5);
  });

  // NIST/SEMATECH e-Handbook 7.2.4.2: each limit leaves α/2 of the binomial in its tail.
  it('leaves a tenth in each tail at 80 %: 19 of 112, 17.0 %', () => {
    const { join_failure, join_failure_low: low, join_failure_high: high } = joinFacts(joins(19, 112), 0.8);
    expect(join_failure).toBeCloseTo(0.1696, 4);
    if (typeof low !== 'number' || typeof high !== 'number') throw new Error('no interval');
    expect(1 - atMost(18, 112, low)).toBeCloseTo(0.1, 9);
    expect(atMost(19, 112, high)).toBeCloseTo(0.1, 9);
  });

  // Newcombe 1998, Statistics in Medicine 17:857–872, Table I, 0 of 20 at 95 %: 0 to 0.1684, from memory.
  it('starts at nothing where nothing failed', () => {
    const facts = joinFacts(joins(0, 20), 0.95);
    expect(facts.join_failure_low).toBe(0);
    expect(facts.join_failure_high).toBeCloseTo(0.1684, 4);
    expect(facts.cloth_share_of_failures).toBe(0);
  });

  it('is unknown where nothing was inspected or more opened than were looked at', () => {
    expect(joinFacts(joins(0, 0), 0.8).join_failure).toBeUndefined();
    expect(joinFacts(joins(5, 4), 0.8).join_failure_low).toBeUndefined();
  });
});
