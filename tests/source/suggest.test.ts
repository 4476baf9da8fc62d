import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slips, suggest } from '../../src/source/suggest.ts';

describe('slips between words', () => {
  // Damerau 1964: one letter wrong, missing, extra, or two neighbours swapped is one slip. "kitten/sitting = 3" is
  // the textbook example of Levenshtein's distance; both from memory.
  it.each([
    ['kitten', 'sitting', 3],
    ['fragil', 'fragile', 1],
    ['wron', 'worn', 1],
    ['ca', 'abc', 3],
    ['', 'abc', 3],
  ])('%s → %s', (a, b, expected) => {
    expect(slips(a, b)).toBe(expected);
  });

  it('is the same both ways, zero only for the same word, and never more than the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const apart = slips(a, b);
        expect(apart).toBe(slips(b, a));
        expect(apart === 0).toBe(a === b);
        expect(apart).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });
});

describe('did you mean', () => {
  const grades = ['sound', 'worn', 'weak', 'fragile', 'failing'];
  it.each([
    ['fragil', 'fragile'],
    ['Fragile', 'fragile'],
    ['soudn', 'sound'],
    ['guest-bed', undefined],
    ['', undefined],
    ['banana', undefined],
  ])('%s', (word, expected) => {
    expect(suggest(word, grades)).toBe(expected);
  });

  it('sees through dashes and capitals', () => {
    expect(suggest('Guest-Bed', ['storage', 'guest_bed'])).toBe('guest_bed');
  });

  it('finds any choice again after one slip in a word of six letters or more', () => {
    const choices = ['storage', 'display', 'guest_bed', 'regular_bed', 'child_bed', 'infant_sleep'];
    fc.assert(
      fc.property(fc.constantFrom(...choices), fc.nat({ max: 6 }), (choice, at) => {
        expect(suggest(choice.slice(0, at) + choice.slice(at + 1), choices)).toBe(choice);
      }),
    );
  });
});
