import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apportion } from '../../src/findings/cross-tabulate.ts';

describe('sharing out whole pieces', () => {
  it('goes by largest remainder', () => {
    // Hamilton's method, textbook arithmetic: quotas 4.1, 3.5 and 2.4 of ten seats.
    expect(apportion(10, [41, 35, 24])).toEqual([4, 4, 2]);
    expect(apportion(3, [1, 1])).toEqual([2, 1]);
    expect(apportion(5, [0, 0])).toEqual([0, 0]);
  });

  it('always adds up and never strays by a whole piece', () => {
    const weights = fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(fc.nat(5000), weights, (total, each) => {
        const sum = each.reduce((all, weight) => all + weight, 0);
        fc.pre(sum > 0);
        const parts = apportion(total, each);
        expect(parts.reduce((all, part) => all + part, 0)).toBe(total);
        parts.forEach((part, index) => {
          expect(Math.abs(part - (total * (each[index] ?? 0)) / sum)).toBeLessThan(1);
        });
      }),
    );
  });
});
