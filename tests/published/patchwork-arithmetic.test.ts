import { describe, expect, test } from 'vitest';
import {
  cornerCut,
  halfSquareCut,
  quarterSquareCut,
  settingCut,
  sparesFor,
  squareCut,
  stripsFor,
  yards,
  yardsToBuy,
} from '../../src/estimates/materials/cut-size.ts';
import { backingPanels, bindingCut, smallestBatting } from '../../src/estimates/materials/layers.ts';
import { formatLength } from '../../src/quantities/length.ts';
import { fits, roundUp } from '../../src/quantities/rounding.ts';
import { shippedFigures } from '../estimates/trade-plans.ts';

/** The quarter-inch allowance of patchwork and a ruler's eighths: common practice, no source. */
const QUARTER = { allowance: 0.25, step: 0.125 };

/** Squares of side `cut` from a length of cloth, straight with the grain. */
const squaresFrom = (width: number, length: number, cut: number): number =>
  fits(width, cut) * fits(length, cut);

describe('squares from one yard', () => {
  // quilterscache.com, MathChartsPage. Its heading says 42 x 36, its text 44 in after selvedges; its numbers are for 44.
  test.each([
    [1, 1584],
    [1.5, 696],
    [1.875, 437],
    [2, 396],
    [2.5, 238],
    [2.875, 180],
    [3, 168],
    [3.5, 120],
    [3.875, 99],
    [4, 99],
    [4.5, 72],
    [4.875, 63],
    [5, 56],
    [5.5, 48],
    [5.875, 42],
    [6, 42],
    [6.5, 30],
    [6.875, 30],
    [7.5, 20],
    [8, 20],
    [8.5, 20],
    [8.875, 16],
    [9, 16],
    [9.5, 12],
    [10, 12],
    [11, 12],
    [11.5, 9],
    [12, 9],
    [12.5, 6],
  ])('%d in: %d', (side, count) => {
    expect(squaresFrom(44, 36, side)).toBe(count);
  });

  test('the heading of that page cannot be right: at 42 in its 2 1/2 in row would say 224', () => {
    expect(squaresFrom(42, 36, 2.5)).toBe(224);
  });

  test('its 7 in row misprints 35: six across and five down are 30', () => {
    expect(squaresFrom(44, 36, 7)).toBe(30);
  });

  test('10 in squares from 42 in: 12', () => {
    expect(squaresFrom(42, 36, 10)).toBe(12);
  });

  test('5 in squares from 42 in: 56', () => {
    // yourwiseadvices.com, ?p=413981
    expect(squaresFrom(42, 36, 5)).toBe(56);
  });
});

// docsbay.net, number of squares from a fat quarter; two other pages agree.
test.each([
  [2, 99],
  [2.5, 56],
  [3, 42],
  [3.5, 30],
  [4, 20],
  [4.5, 16],
  [5, 12],
  [5.5, 12],
  [6, 9],
  [6.5, 6],
])('%d in squares from a fat quarter of 18 x 22 in: %d', (side, count) => {
  expect(squaresFrom(22, 18, side)).toBe(count);
});

test('63 squares of 9 1/2 in from 42 in: 4 a strip, 16 strips, 152 in, 4.222 yd', () => {
  // quiltingboard.com, 6228687, post 7
  const strips = stripsFor(63, { width: 9.5, height: 9.5 }, 42);
  expect(strips).toEqual({ piecesEach: 4, strips: 16, length: 152 });
  expect(yards(152)).toBeCloseTo(4.222, 3);
});

describe('binding', () => {
  test.each([
    // blog.missouriquiltco.com, how to figure yardage: 268 in, 6.7, 7 strips, 17.5 in, half a yard
    { width: 66, height: 58, allowance: 20, usable: 40, length: 268, exact: 6.7, strips: 7 },
    // monicacurryquiltdesign.com 2019/06: 238 in, 5.67, 6 strips
    { width: 54, height: 60, allowance: 10, usable: 42, length: 238, exact: 5.67, strips: 6 },
    // quiltingboard.com, binding math, t189575: 424 in, 10.6, 11 strips
    { width: 96, height: 110, allowance: 12, usable: 40, length: 424, exact: 10.6, strips: 11 },
    // castillejacotton.blogspot.com 2013/06: 40 in less 2 for joining, 5.79, 6 strips
    { width: 50, height: 60, allowance: 0, usable: 38, length: 220, exact: 5.79, strips: 6 },
  ])('$width x $height with $allowance in over, $usable in usable: $strips strips', (given) => {
    const cut = bindingCut(given.width, given.height, {
      allowance: given.allowance,
      usable: given.usable,
      strip: 2.5,
    });
    expect(cut.length).toBe(given.length);
    expect(cut.exactStrips).toBeCloseTo(given.exact, 2);
    expect(cut.strips).toBe(given.strips);
  });

  test('17 1/2 in of strips are bought as half a yard', () => {
    const cut = bindingCut(66, 58, { allowance: 20, usable: 40, strip: 2.5 });
    expect(cut.cloth).toBe(17.5);
    expect(yardsToBuy(cut.cloth, 0, 0.125)).toBe(0.5);
  });
});

test('backing for 70 x 84 with 3 in at each end: two lengths, 180 in, 5 yd', () => {
  // cherryblossomlove.com, throw quilt: 84 x 2 + 12 = 180 in
  const price = { low: 1, likely: 1, high: 1 };
  const down = backingPanels(70, 84, 3, { name: 'bolt', width: 41, price })[0];
  expect(down).toMatchObject({ panels: 2, run: 'down', length: 180 });
  expect(yards(down?.length ?? 0)).toBe(5);
});

describe('triangles', () => {
  test('corners on point: 12 in blocks take 9 3/8 in squares, 6 in blocks 5 1/8 in', () => {
    // docsbay.net, on-point corner = finished / 1.414 + 7/8
    expect(formatLength(cornerCut(12, QUARTER), 'inches')).toBe('9 3/8 in');
    expect(formatLength(cornerCut(6, QUARTER), 'inches')).toBe('5 1/8 in');
  });

  test('sides on point: 10 in blocks take 15 1/2 in squares', () => {
    // stockingisthenewplanking.com, how do you calculate quilt binding: 10 x 1.414 + 1.25 = 15.39, cut 15 1/2
    expect(settingCut(10, QUARTER)).toBe(15.5);
    expect(10 * Math.SQRT2 + 1.25).toBeCloseTo(15.39, 2);
  });

  test('half squares are finished + 7/8, quarter squares + 1 1/4, squares + 1/2', () => {
    // the same page for 7/8; 1 1/4 and 1/2 common practice, no source
    expect(halfSquareCut(6, QUARTER)).toBe(6.875);
    expect(quarterSquareCut(6, QUARTER)).toBe(7.25);
    expect(squareCut(6, QUARTER)).toBe(6.5);
  });

  test.each([
    [6, 8.5],
    [9, 12.75],
    [12, 17],
  ])('the diagonal of %d in is cut as %d', (side, diagonal) => {
    // quilterscache.com, MathChartsPage
    expect(roundUp(side * Math.SQRT2, 0.125)).toBe(diagonal);
  });
});

test('batting: 36x45, 45x60, 72x90, 81x96, 90x108 and 120x120 in are sold; the smallest that serves is taken', () => {
  // needlepointers.com, batting sizes; which one serves is geometry
  const sizes = (
    [
      [36, 45],
      [45, 60],
      [72, 90],
      [81, 96],
      [90, 108],
      [120, 120],
    ] as const
  ).map(([width, length]) => ({
    name: `${width}x${length}`,
    width,
    length,
  }));
  expect(smallestBatting({ width: 72, height: 90 }, sizes)?.name).toBe('72x90');
  expect(smallestBatting({ width: 90, height: 72 }, sizes)?.name).toBe('72x90');
  expect(smallestBatting({ width: 72, height: 91 }, sizes)?.name).toBe('81x96');
  expect(smallestBatting({ width: 88, height: 100 }, sizes)?.name).toBe('90x108');
  expect(smallestBatting({ width: 121, height: 60 }, sizes)).toBeUndefined();
});

test('spares: one in ten, at least one', () => {
  // common practice, no source
  expect([0, 1, 10, 11, 25].map((pieces) => sparesFor(pieces, 0.1))).toEqual([0, 1, 1, 2, 3]);
});

test('battings are rated as their makers print: 10 in with scrim, 8 in cotton, 3 in wool, the strictest where unknown', () => {
  // generations-quilt-patterns.com, batting and machine quilting distances; unknown: bonnysews.com 2019/03, 1 to 2 in
  const figures = shippedFigures();
  const rated = (id: string): number => figures.number(`plans.${id}`);
  expect(rated('new_batting.needled_cotton_with_scrim')).toBe(10);
  expect(rated('new_batting.cotton')).toBe(8);
  expect(rated('new_batting.wool')).toBe(3);
  expect(rated('old_batting_rated_gap.loose')).toBeLessThanOrEqual(2);
  expect(rated('old_batting_rated_gap.unknown')).toBeLessThanOrEqual(2);
});
