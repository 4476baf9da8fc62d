import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatArea, readArea } from '../../src/quantities/length.ts';
import { formatShare, formatWeight, readShare, readWeight } from '../../src/quantities/measure.ts';
import {
  fits,
  formatMoney,
  roundMoney,
  roundMoneyUp,
  roundNearest,
  roundUp,
} from '../../src/quantities/rounding.ts';

describe('areas', () => {
  test.each([
    ['12 in2', 12],
    ['12 in²', 12],
    ['12 sq in', 12],
    ['12 sq. in.', 12],
    ['12 square inches', 12],
    ['1 sq ft', 144],
    ['1 m2', 10_000 / 6.4516],
    ['30 cm2', 30 / 6.4516],
    // Canadian Conservation Institute: a small outbreak ends at 0.3 m²; the trade says 465 in².
    ['0.3 m2', 465.0009],
  ])('%s', (text, squareInches) => {
    expect(readArea(text)).toBeCloseTo(squareInches, 4);
  });

  test.each(['12', '12 in', '12 in3', '-1 in2', ''])('refuses %j', (text) => {
    expect(readArea(text)).toBeUndefined();
  });

  test('shown in either system', () => {
    expect(formatArea(12, 'inches')).toBe('12 in²');
    expect(formatArea(12, 'metric')).toBe('77 cm²');
    expect(formatArea(465, 'metric')).toBe('0.3 m²');
    expect(formatArea(0, 'inches')).toBe('0 in²');
  });

  test('read back within half of the last place', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20_000, noNaN: true }), (area) => {
        expect(Math.abs((readArea(formatArea(area, 'inches')) ?? Number.NaN) - area)).toBeLessThanOrEqual(
          0.0501,
        );
        const half = area * 6.4516 < 1000 ? 0.5 / 6.4516 : 50 / 6.4516;
        expect(Math.abs((readArea(formatArea(area, 'metric')) ?? Number.NaN) - area)).toBeLessThanOrEqual(
          half + 1e-6,
        );
      }),
    );
  });
});

describe('weights', () => {
  test.each([
    ['3.2 lb', 3.2],
    ['3 lb 4 oz', 3.25],
    ['8 oz', 0.5],
    ['0.45359237 kg', 1],
    ['453.59237 g', 1],
    ['7½ lbs', 7.5],
  ])('%s', (text, pounds) => {
    expect(readWeight(text)).toBeCloseTo(pounds, 12);
  });

  test.each(['3', '3 in', '4 oz 3 lb'])('refuses %j', (text) => {
    expect(readWeight(text)).toBeUndefined();
  });

  test('read back within half of the last place', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (weight) => {
        expect(
          Math.abs((readWeight(formatWeight(weight, 'inches')) ?? Number.NaN) - weight),
        ).toBeLessThanOrEqual(0.0501);
        const metric = readWeight(formatWeight(weight, 'metric')) ?? Number.NaN;
        expect(Math.abs(metric - weight)).toBeLessThanOrEqual(0.0501 / 0.45359237);
      }),
    );
  });
});

describe('shares', () => {
  test.each<[string | number, number]>([
    ['5 %', 0.05],
    ['12.7 %', 0.127],
    ['7%', 0.07],
    ['0.05', 0.05],
    [0.05, 0.05],
    ['100 %', 1],
    [0, 0],
    ['20 percent', 0.2],
  ])('%j', (value, fraction) => {
    expect(readShare(value)).toBeCloseTo(fraction, 15);
  });

  test('a bare number above one could be a percentage or a slip: refused', () => {
    expect(readShare(5)).toBeUndefined();
    expect(readShare('5')).toBeUndefined();
    expect(readShare(-0.1)).toBeUndefined();
    expect(readShare(Number.NaN)).toBeUndefined();
  });

  test('a stated 120 % is read, for the range check to refuse by its proper name', () => {
    expect(readShare('120 %')).toBe(1.2);
  });

  test('read back within half of the last place', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        expect(Math.abs((readShare(formatShare(share)) ?? Number.NaN) - share)).toBeLessThanOrEqual(0.000501);
      }),
    );
  });
});

describe('money', () => {
  test.each([
    [1120, '$', '$1,120'],
    [40.5, '€', '€40.50'],
    [1_234_567.891, 'EUR', '1,234,567.89 EUR'],
    [0.999, '$', '$1'],
    [-12, '$', '-$12'],
    [-0.001, 'EUR', '0 EUR'],
    [999.995, '$', '$1,000'],
  ])('%d in %s', (amount, currency, text) => {
    expect(formatMoney(amount, currency)).toBe(text);
  });

  test('rounded to a step', () => {
    expect(roundMoney(1114, 10)).toBe(1110);
    expect(roundMoneyUp(1111, 10)).toBe(1120);
    expect(roundMoneyUp(1110, 10)).toBe(1110);
  });
});

describe('steps', () => {
  const value = fc.double({ min: 0, max: 10_000, noNaN: true });
  const step = fc.constantFrom(0.0625, 0.1, 0.125, 0.25, 1, 5, 10);

  test('up never goes down, down never up, nearest is within half', () => {
    fc.assert(
      fc.property(value, step, (x, by) => {
        const slack = 1e-8 * by;
        expect(roundUp(x, by)).toBeGreaterThanOrEqual(x - slack);
        expect(Math.abs(roundNearest(x, by) - x)).toBeLessThanOrEqual(by / 2 + slack);
      }),
    );
  });

  test('a multiple of the step stays where it is, whatever its binary tail', () => {
    fc.assert(
      fc.property(fc.nat(10_000), step, (n, by) => {
        expect(roundUp(n * by, by)).toBeCloseTo(n * by, 9);
        expect(fits(n * by, by)).toBe(n);
      }),
    );
  });
});
