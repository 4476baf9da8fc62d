import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDate } from '../../src/casebook/fields.ts';
import { mapRows, readUnits, writeUnits } from '../../src/casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';

const state = fc.constantFrom(...(Object.keys(UNIT_STATES) as UnitState[]));
const map = fc.array(fc.array(state, { minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: 30 });

describe('maps', () => {
  it('come back as they were written', () => {
    fc.assert(
      fc.property(map, (rows) => {
        expect(readUnits(writeUnits(rows))).toEqual(rows);
      }),
    );
  });
  it('read the same whatever blanks stand between the marks', () => {
    fc.assert(
      fc.property(map, fc.constantFrom('', '  ', '\t'), (rows, gap) => {
        const text = writeUnits(rows).replaceAll(' ', gap).replaceAll('\n', '  \r\n\r\n');
        expect(readUnits(text)).toEqual(rows);
      }),
    );
  });
  it('keep the letters of families', () => {
    expect(mapRows('A B a\n B A A \n')).toEqual([
      ['A', 'B', 'a'],
      ['B', 'A', 'A'],
    ]);
  });
});

describe('dates', () => {
  // Gregorian leap years: every fourth, not every hundredth, but every four hundredth (ISO 8601).
  it.each([
    ['2026-03-05', true],
    ['2024-02-29', true],
    ['2000-02-29', true],
    ['2026-02-29', false],
    ['1900-02-29', false],
    ['2026-04-31', false],
    ['2026-13-01', false],
    ['2026-00-10', false],
    ['2026-3-5', false],
    ['05.03.2026', false],
    ['2026-03-05T10:00', false],
    ['', false],
  ])('%s', (text, real) => {
    expect(readDate(text)).toBe(real ? text : undefined);
  });
  it('takes no number, group or nothing for a date', () => {
    for (const raw of [20260305, null, undefined, {}, ['x']]) expect(readDate(raw)).toBeUndefined();
  });
});
