import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatLength, readLength } from '../../src/quantities/length.ts';

describe('reading a length', () => {
  // International yard and pound agreement 1959: 1 in = 25.4 mm exactly; 12 in to the foot, 3 ft to the yard.
  test.each([
    ['4 1/2 in', 4.5],
    ['4-1/2 in', 4.5],
    ['4 1/2"', 4.5],
    ['4½ in', 4.5],
    ['4 ½”', 4.5],
    ['⅞″', 0.875],
    ['4.5 in', 4.5],
    ['.25 in', 0.25],
    ['1/4 in', 0.25],
    ['9/8 in', 1.125],
    ['72 in.', 72],
    ['3 ft', 36],
    ['5 ft 6 in', 66],
    [`5'6"`, 66],
    ['5′ 6½″', 66.5],
    ['2 yd', 72],
    ['10 cm', 100 / 25.4],
    ['25 mm', 25 / 25.4],
    ['1 m', 1000 / 25.4],
    ['254 mm', 10],
    ['0 in', 0],
    ['4 INCHES', 4],
    ['4\u00a0in', 4],
  ])('%s', (text, inches) => {
    expect(readLength(text)).toBeCloseTo(inches, 12);
  });

  test.each([
    '4',
    '4 1/2',
    '',
    ' ',
    'in',
    '-4 in',
    '4 inn',
    '4 in2',
    '4 lb',
    '4 in 3',
    '3 in 4 in',
    '6 in 5 ft',
    '1/0 in',
    '4,5 cm',
    'four in',
    '1e3 in',
    '1/2/3 in',
  ])('refuses %j rather than guess', (text) => {
    expect(readLength(text)).toBeUndefined();
  });
});

describe('writing a length', () => {
  test.each([
    [4.5, '4 1/2 in'],
    [0.25, '1/4 in'],
    [12, '12 in'],
    [0, '0 in'],
    [2.99, '3 in'],
    [-1.5, '-1 1/2 in'],
    [-0.01, '0 in'],
  ])('%d in inches', (inches, text) => {
    expect(formatLength(inches, 'inches')).toBe(text);
  });

  test('to a sixteenth, to the nearest or upward', () => {
    expect(formatLength(3.05, 'inches', { denominator: 16 })).toBe('3 1/16 in');
    expect(formatLength(3.01, 'inches', { rounding: 'up' })).toBe('3 1/8 in');
    expect(formatLength(3.01, 'inches')).toBe('3 in');
  });

  test('in centimetres to the millimetre', () => {
    expect(formatLength(4.5, 'metric')).toBe('11.4 cm');
    expect(formatLength(4.5, 'metric', { rounding: 'up' })).toBe('11.5 cm');
    expect(formatLength(1000 / 25.4, 'metric')).toBe('100 cm');
  });

  test('refuses what is not a length', () => {
    expect(() => formatLength(Number.NaN, 'inches')).toThrow(RangeError);
    expect(() => formatLength(Number.POSITIVE_INFINITY, 'metric')).toThrow(RangeError);
  });

  const anyLength = fc.double({ min: 0, max: 500, noNaN: true });

  test('reads back within half a step', () => {
    fc.assert(
      fc.property(anyLength, fc.constantFrom<8 | 16>(8, 16), (inches, denominator) => {
        const back = readLength(formatLength(inches, 'inches', { denominator }));
        expect(Math.abs((back ?? Number.NaN) - inches)).toBeLessThanOrEqual(0.5 / denominator + 1e-9);
        const metric = readLength(formatLength(inches, 'metric'));
        expect(Math.abs((metric ?? Number.NaN) - inches)).toBeLessThanOrEqual(0.5 / 25.4 + 1e-9);
      }),
    );
  });

  test('rounding up never goes down and never by a whole step', () => {
    fc.assert(
      fc.property(anyLength, fc.constantFrom<8 | 16>(8, 16), (inches, denominator) => {
        const back =
          readLength(formatLength(inches, 'inches', { denominator, rounding: 'up' })) ?? Number.NaN;
        expect(back).toBeGreaterThanOrEqual(inches - 1e-9);
        expect(back).toBeLessThan(inches + 1 / denominator);
        const metric = readLength(formatLength(inches, 'metric', { rounding: 'up' })) ?? Number.NaN;
        expect(metric).toBeGreaterThanOrEqual(inches - 1e-9);
      }),
    );
  });
});
