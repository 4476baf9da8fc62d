import { describe, expect, it } from 'vitest';
import { clopperPearson, wilson } from '../../src/statistics/intervals.ts';

describe('exact interval', () => {
  // NIST/SEMATECH e-Handbook 7.2.4.2, itl.nist.gov: 4 defects of 20, 90 % two-sided. Inputs read there; the printed
  // limits 0.071354 and 0.401029 from memory. NIST solves by spreadsheet, hence 2e-6.
  it('gives the handbook’s limits for 4 of 20', () => {
    const { low, high } = clopperPearson(4, 20, 0.9);
    expect(Math.abs(low - 0.071354)).toBeLessThan(2e-6);
    expect(Math.abs(high - 0.401029)).toBeLessThan(2e-6);
  });

  // One-sided 95 % bound for nothing failed of n is 1 − 0.05^(1/n), behind the "rule of three" (3/n), as described
  // at errickson.net/blog/the-rule-of-three.html; the decimals were computed.
  it.each([
    [10, 0.2589],
    [20, 0.1391],
    [30, 0.095],
    [50, 0.0582],
    [100, 0.0295],
  ])('bounds nothing failed of %i from above at %d', (n, bound) => {
    expect(clopperPearson(0, n, 0.9).high).toBeCloseTo(bound, 4);
    if (n >= 30) expect(Math.abs(clopperPearson(0, n, 0.9).high - 3 / n)).toBeLessThan(0.006);
  });
});

describe('Wilson interval', () => {
  // Formula read in NIST/SEMATECH e-Handbook 7.2.4.1; decimals computed from it independently.
  it('follows the handbook’s formula for 4 of 20', () => {
    expect(wilson(4, 20, 0.9).low).toBeCloseTo(0.093118, 6);
    expect(wilson(4, 20, 0.9).high).toBeCloseTo(0.378377, 6);
    expect(wilson(4, 20, 0.95).low).toBeCloseTo(0.080658, 6);
    expect(wilson(4, 20, 0.95).high).toBeCloseTo(0.416017, 6);
  });
});

describe('Newcombe’s table of intervals', () => {
  // Newcombe 1998, Statistics in Medicine 17:857–872, Table I, 95 %: values from memory.
  it.each([
    [81, 263, 0.2553, 0.3662, 0.2527, 0.3676],
    [15, 148, 0.0624, 0.1605, 0.0578, 0.1617],
    [0, 20, 0, 0.1611, 0, 0.1684],
    [1, 29, 0.0061, 0.1718, 0.0009, 0.1776],
  ])('is met for %i of %i', (x, n, wilsonLow, wilsonHigh, exactLow, exactHigh) => {
    expect(wilson(x, n, 0.95).low).toBeCloseTo(wilsonLow, 4);
    expect(wilson(x, n, 0.95).high).toBeCloseTo(wilsonHigh, 4);
    expect(clopperPearson(x, n, 0.95).low).toBeCloseTo(exactLow, 4);
    expect(clopperPearson(x, n, 0.95).high).toBeCloseTo(exactHigh, 4);
  });
});
