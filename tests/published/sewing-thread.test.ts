import { describe, expect, test } from 'vitest';
import { seamStrength, threadFromRatios, threadPerInch } from '../../src/estimates/materials/thread.ts';
import { MM_PER_INCH } from '../../src/quantities/length.ts';
import { gramsPerSquareMetre } from '../../src/quantities/weight.ts';
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

describe('what a seam bears', () => {
  // learnapparel.blogspot.com 2013/02; cld.bz/fwuRkat, pages 32 and 33; the last: jsrz.com. Pounds an inch.
  test.each([
    ['301', 10, 4, 60],
    ['401', 10, 4, 68],
    ['301', 6, 2.6, 23.4],
    ['301', 8, 2.6, 31.2],
    ['301', 10, 2.6, 39],
    ['301', 12, 2.6, 46.8],
    ['301', 6, 2.2, 19.8],
    ['301', 8, 2.2, 26.4],
    ['301', 10, 2.2, 33],
    ['301', 12, 2.2, 39.6],
    ['401', 5, 35, 297.5],
  ] as const)('%s, %d stitches an inch, thread of %d lb: %d lb', (stitch, perInch, thread, load) => {
    expect(seamStrength(stitch, perInch, thread)).toBeCloseTo(load, 9);
  });

  test('the row for 2.2 lb is printed in whole pounds: 20, 26, 33, 40', () => {
    expect([6, 8, 10, 12].map((each) => Math.round(seamStrength('301', each, 2.2)))).toEqual([
      20, 26, 33, 40,
    ]);
  });
});

test('from 3 to 4.5 stitches a centimetre a seam bears half as much again for about a tenth more thread', () => {
  // guetermann.com, seam strength. Strength goes by stitches; thread through cloth of about 0.8 mm, by geometry.
  const [few, many] = [3, 4.5].map((perCm) => (perCm * MM_PER_INCH) / 10);
  if (few === undefined || many === undefined) throw new Error('no stitches');
  expect(seamStrength('301', many, 2.6) / seamStrength('301', few, 2.6)).toBeCloseTo(1.5, 12);
  const thickness = 0.8 / MM_PER_INCH;
  const more = threadPerInch('301', thickness, many) / threadPerInch('301', thickness, few);
  expect(Math.abs(more - 1.1)).toBeLessThan(0.02);
});

test('a load of 60 lb is 266.9 N', () => {
  // pound-force by definition, 4.4482216 N; the load: learnapparel.blogspot.com 2013/02
  expect(seamStrength('301', 10, 4) * 4.4482216).toBeCloseTo(266.9, 1);
});

test('2.5 mm stitches are 10.16 to the inch', () => {
  // jackasscharmsoap.com, what size stitch for machine quilting
  expect(MM_PER_INCH / 2.5).toBeCloseTo(10.16, 9);
});

describe('weight of cloth', () => {
  test('1 oz/yd² is 33.906 g/m²', () => {
    // from the definitions of pound and yard (1959): 28.349523125 g over 0.83612736 m²
    expect(gramsPerSquareMetre(1)).toBeCloseTo(33.906, 3);
  });

  test('45 in cloth at 3.5 yd a pound is 124 g/m²; 60/60 at 2 yd a pound 217 g/m²', () => {
    // mark-sweeney-z3bb.squarespace.com/basic gives yards a pound; the width of 45 in for both
    const ounces = (yardsPerPound: number): number => 16 / ((yardsPerPound * 45) / 36);
    expect(gramsPerSquareMetre(ounces(3.5))).toBeCloseTo(124, 0);
    expect(gramsPerSquareMetre(ounces(2))).toBeCloseTo(217, 0);
  });

  test('quilting cotton of 4 to 5 oz/yd² is 136 to 170 g/m²', () => {
    // alwayscrafts.com, how much does quilting cotton weigh
    expect(gramsPerSquareMetre(4)).toBeCloseTo(136, 0);
    expect(gramsPerSquareMetre(5)).toBeCloseTo(170, 0);
  });
});
