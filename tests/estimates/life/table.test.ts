import { describe, expect, it } from 'vitest';
import { GRADES, type Grade, type Use } from '../../../src/casebook/scales.ts';
import { elementWear, type Meets } from '../../../src/estimates/life/plan-wear.ts';
import { lifeModel } from '../../../src/estimates/life/remaining-life.ts';
import { shippedFigures } from './shipped-figures.ts';

const figures = shippedFigures();

/**
 * Years to the next repair by fragility as planned and intended use: expert judgement, common practice, no source.
 * Cells the trade does not offer are left out. Supported: weak cloth on a guest bed, fragile cloth on display.
 */
const TABLE: readonly (readonly [Grade, Use, number, number])[] = [
  ['sound', 'storage', 50, Number.POSITIVE_INFINITY],
  ['sound', 'display', 30, 50],
  ['sound', 'guest_bed', 15, 30],
  ['sound', 'regular_bed', 5, 10],
  ['sound', 'child_bed', 2, 5],
  ['worn', 'storage', 40, Number.POSITIVE_INFINITY],
  ['worn', 'display', 20, 40],
  ['worn', 'guest_bed', 10, 20],
  ['worn', 'regular_bed', 3, 7],
  ['worn', 'child_bed', 1, 3],
  ['weak', 'storage', 20, 40],
  ['weak', 'display', 8, 20],
  ['weak', 'guest_bed', 3, 8],
  ['weak', 'regular_bed', 0, 2],
  ['fragile', 'storage', 10, 25],
  ['fragile', 'display', 2, 8],
];

const life = (grade: Grade, use: Use, meets: Partial<Meets> = {}, seams = false) => {
  const index = GRADES.indexOf(grade);
  const supported = (grade === 'weak' && use === 'guest_bed') || (grade === 'fragile' && use === 'display');
  const plain = { supported, stitched: false, strongBesideWeak: false, selfDestructing: false, ...meets };
  const context = {
    use,
    history: undefined,
    ageYears: undefined,
    washing: 'hand',
    directLight: false,
    perforation: undefined,
    wantedYears: undefined,
    gradeOdds: undefined,
  } as const;
  const cloth = { name: 'cloth', grade: index, units: 64, wear: elementWear(plain, context, figures) };
  return lifeModel(figures).remainingLife({
    elements: seams ? [cloth, { ...cloth, name: 'seams' }] : [cloth],
    wear: { known: 15 },
    ratePerYear: figures.number(`life.rate.${use}`),
    rateSpread: figures.figure(`life.rate.${use}`).spread ?? 0,
    use,
  });
};

describe('the trade’s table of remaining life', () => {
  it.each(TABLE)('%s cloth for %s lies within its cell', (grade, use, low, high) => {
    const { middle, horizon } = life(grade, use);
    // a middle at the horizon means more than that
    expect(middle).toBeGreaterThanOrEqual(Math.min(low, horizon) - 1e-9);
    expect(middle).toBeLessThanOrEqual(high);
  });

  it('counts the support those cells already contain only once', () => {
    for (const [grade, use] of [
      ['weak', 'guest_bed'],
      ['fragile', 'display'],
    ] as const) {
      const without = life(grade, use, { supported: false });
      expect(life(grade, use, { supported: true }).middle / without.middle).toBeCloseTo(1.5, 2);
    }
    // elsewhere a full support adds half as much again: common practice, no source
    expect(life('weak', 'display', { supported: true }).middle).toBeCloseTo(
      1.5 * life('weak', 'display').middle,
      1,
    );
    expect(life('sound', 'guest_bed', { supported: true }).middle).toBe(life('sound', 'guest_bed').middle);
  });

  it('offers no years for failing cloth', () => {
    const failing = life('failing', 'storage');
    expect([failing.low, failing.middle, failing.high]).toEqual([0, 0, 0]);
    expect(failing.weakestLink).toBe('cloth');
    expect(failing.chance).toBeUndefined();
    expect(failing.assumptions[0]).toContain('until it is next handled');
  });

  // With two elements alike the first of them to fail comes sooner than either: by 15 % at a log-spread of 0.29.
  it('is shortened where a second element can fail first', () => {
    for (const [grade, use] of TABLE) {
      if (life(grade, use).high >= 50) continue;
      const ratio = life(grade, use, {}, true).middle / life(grade, use).middle;
      expect(ratio).toBeGreaterThan(0.8);
      expect(ratio).toBeLessThan(0.9);
    }
  });
});
