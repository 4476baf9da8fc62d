import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { whole } from '../../src/quantities/rounding.ts';

describe('whole numbers', () => {
  // ECMA-402, Intl.NumberFormat with its tables for American English (CLDR), as Node brings it.
  it('read as American English writes them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 40 }), (value) => {
        expect(whole(value)).toBe(value.toLocaleString('en-US'));
      }),
    );
    expect([0, 999.6, 1234567].map(whole)).toEqual(['0', '1,000', '1,234,567']);
  });
});
