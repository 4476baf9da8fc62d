import { describe, expect, it } from 'vitest';
import { between, counted, listed, yearsRange } from '../../src/documents/phrases.ts';

const range = (low: number, high: number): string => yearsRange({ low, high, horizon: 50 });

describe('a range of years in words', () => {
  it.each([
    [2.1, 7.5, '2 to 8 years'],
    [0.4, 1.5, '5 to 18 months'],
    [0.08, 0.5, '1 to 6 months'],
    [0.08, 4, '1 month to 4 years'],
    [0.9, 12, '11 months to 12 years'],
    [6, 50, '6 years to more than 50 years'],
    [50, 50, 'more than 50 years'],
    [3.1, 3.2, '3 years'],
    [0, 1.4, '0 to 17 months'],
    [0, 5, '0 to 5 years'],
  ])('%f to %f', (low, high, words) => expect(range(low, high)).toBe(words));

  it('says in words that mending is due now', () => expect(range(0, 0)).toMatch(/needs mending now/));
});

describe('counts', () => {
  it('are singular for one alone and have commas from a thousand', () => {
    expect([counted(1, 'seam'), counted(0, 'seam'), counted(1200, 'patch', 'patches')]).toEqual([
      '1 seam',
      '0 seams',
      '1,200 patches',
    ]);
    expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
    expect(between('4', '4')).toBe('4');
  });
});
