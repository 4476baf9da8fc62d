import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Span } from '../../src/findings/fact.ts';
import type { Operand } from '../../src/rulebook/comparisons.ts';
import {
  COMPARISON_NAMES,
  type ComparisonName,
  certainly,
  comparison,
  judge,
} from '../../src/rulebook/comparisons.ts';
import { numberTest, spanOfSteps, step } from '../arbitraries/rules.ts';

/** What each comparison means of one known number, written down apart from the house's own table. */
const MEANS: Readonly<Partial<Record<ComparisonName, (value: number, operand: number[]) => boolean>>> = {
  is: (value, [o]) => value === o,
  'is not': (value, [o]) => value !== o,
  'one of': (value, list) => list.includes(value),
  'at least': (value, [o = 0]) => value >= o,
  'more than': (value, [o = 0]) => value > o,
  'at most': (value, [o = 0]) => value <= o,
  'less than': (value, [o = 0]) => value < o,
  between: (value, [lo = 0, hi = 0]) => lo <= value && value <= hi,
};

const meaning = (name: ComparisonName, value: number, operand: Operand): boolean => {
  const means = MEANS[name];
  if (means === undefined) throw new Error(`no meaning written down for "${name}"`);
  return means(value, [operand].flat() as number[]);
};

const within = ({ lo, hi }: Span): number[] => Array.from({ length: hi - lo + 1 }, (_, index) => lo + index);

describe('a comparison', () => {
  it('means of a known value what its words say', () => {
    fc.assert(
      fc.property(numberTest, step, ({ comparison: name, operand }, value) => {
        expect(judge(name, value, operand)).toBe(meaning(name, value, operand));
      }),
      { numRuns: 2000 },
    );
  });

  it('is settled within bounds exactly where every value there agrees', () => {
    fc.assert(
      fc.property(numberTest, spanOfSteps, ({ comparison: name, operand }, bounds) => {
        const each = within(bounds).map((value) => meaning(name, value, operand));
        const wanted = each.every(Boolean) ? true : each.some(Boolean) ? undefined : false;
        expect(judge(name, bounds, operand), `${name} ${operand} of ${bounds.lo} to ${bounds.hi}`).toBe(
          wanted,
        );
      }),
      { numRuns: 5000 },
    );
  });

  it('is undecided where nothing is known', () => {
    for (const name of COMPARISON_NAMES) {
      const wanted = name === 'is unknown' ? true : name === 'is known' ? false : undefined;
      expect(judge(name, undefined, comparison(name).operand === 'many' ? [1] : 1)).toBe(wanted);
    }
  });

  it('asks whether a thing is known: a value is, bounds and nothing are not', () => {
    const asked = (name: 'is known' | 'is unknown') =>
      [3, false, 'tie', { lo: 1, hi: 2 }, undefined].map((fact) => judge(name, fact, undefined));
    expect(asked('is known')).toEqual([true, true, true, false, false]);
    expect(asked('is unknown')).toEqual([false, false, false, true, true]);
  });

  it('lets a share that was divided equal a threshold that was typed', () => {
    // 0.1 + 0.2 is not 0.3 in doubles (IEEE 754); nor need 7 of 140 be 5 %.
    expect(judge('at most', 0.1 + 0.2, 0.3)).toBe(true);
    expect(judge('more than', 0.1 + 0.2, 0.3)).toBe(false);
    expect(judge('at least', 1 - 0.9, 0.1)).toBe(true);
    expect(judge('between', 0.1 + 0.2, [0.05, 0.3])).toBe(true);
  });

  it('is certain only where it is true of every value', () => {
    fc.assert(
      fc.property(numberTest, fc.oneof(step, spanOfSteps), ({ comparison: name, operand }, fact) => {
        expect(certainly(name, fact, operand)).toBe(judge(name, fact, operand) === true);
      }),
      { numRuns: 2000 },
    );
  });

  it('never takes words or yes and no for numbers', () => {
    for (const name of ['at least', 'more than', 'at most', 'less than'] as const) {
      expect(judge(name, 'tie', 1)).toBe(false);
      expect(judge(name, true, 1)).toBe(false);
    }
  });
});
