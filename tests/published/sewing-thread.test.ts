import { describe, expect, test } from 'vitest';
import { threadFromRatios, threadPerInch } from '../../src/estimates/materials/sewing.ts';
import { MM_PER_INCH } from '../../src/quantities/length.ts';
import { shippedFigures } from '../estimates/trade-plans.ts';

describe('thread by the geometry of the stitch class', () => {
  // textilecalculations.com, calculate amount of sewing thread consumption
  test('lockstitch 301 through 0.01 in at 10 an inch: 2.2', () => {
    expect(threadPerInch('301', 0.01, 10)).toBeCloseTo(2.2, 12);
  });

  test('chainstitch 101 through 0.005 in at 9 an inch: 3.09', () => {
    expect(threadPerInch('101', 0.005, 9)).toBeCloseTo(3.09, 12);
  });

  test('two-thread chainstitch 401 takes two seam lengths more than lockstitch', () => {
    // the same page: 4 + 2TS against 2 + 2TS
    expect(threadPerInch('401', 0.01, 10) - threadPerInch('301', 0.01, 10)).toBeCloseTo(2, 12);
  });
});

describe('thread by ratio', () => {
  const figures = shippedFigures();

  test('220 cm of lockstitch at 2.5: 550 cm', () => {
    // melgeecrafts.com, thread consumption; the ratio also at textilecalculator.com
    expect(threadFromRatios(220, [figures.number('materials.thread.lockstitch_seam')])).toBeCloseTo(550, 9);
  });

  test('two-thread chainstitch: 5.5', () => {
    // textilecalculator.com, sewing thread ratios
    expect(figures.number('materials.thread.chainstitch_seam')).toBe(5.5);
  });

  test('15 cm of 401 took 19.5 + 62.0 cm: about 1.3 and 4.1, so a metre takes 540 cm, 621 cm with 15 % waste', () => {
    // apparelscience.com, measuring actual thread consumption
    const ratios = [19.5 / 15, 62 / 15].map((ratio) => Math.round(ratio * 10) / 10);
    expect(ratios).toEqual([1.3, 4.1]);
    expect(threadFromRatios(100, ratios)).toBeCloseTo(540, 9);
    expect(threadFromRatios(100, ratios, figures.number('materials.thread.waste'))).toBeCloseTo(621, 9);
  });

  test('42 in of 401 at 3 and 2.67: 6.63 yd, 7.62 yd with 15 % waste, to a fiftieth of a yard', () => {
    // American & Efird bulletin, scribd.com 75439238. Its printed factors give 6.615 and 7.607 yd; its own sums presumably use unrounded ones.
    expect(Math.abs(threadFromRatios(42, [3, 2.67]) / 36 - 6.63)).toBeLessThan(0.02);
    expect(Math.abs(threadFromRatios(42, [3, 2.67], 0.15) / 36 - 7.62)).toBeLessThan(0.02);
  });
});

test('2.5 mm stitches are 10.16 to the inch', () => {
  // jackasscharmsoap.com, what size stitch for machine quilting
  expect(MM_PER_INCH / 2.5).toBeCloseTo(10.16, 9);
});
