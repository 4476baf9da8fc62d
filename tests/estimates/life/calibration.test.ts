import { describe, expect, it } from 'vitest';
import { lifePrior } from '../../../src/estimates/life/prior.ts';
import { lifeModel } from '../../../src/estimates/life/remaining-life.ts';
import { FULL } from '../../tiers.ts';
import { shippedFigures } from './shipped-figures.ts';
import { type Coverage, coverage, type Regime } from './simulate.ts';

const figures = shippedFigures();
const prior = lifePrior(figures);
const model = lifeModel(figures);
const QUILTS = FULL ? 2000 : 500;

const [SOUND, WORN, WEAK, FRAGILE] = [0, 1, 2, 3];
const cloth = (grade: Regime['elements'][number]['grade'], units = 64, seen = units) => ({
  grade,
  units,
  seen,
});

/** Quilts the model’s own priors make. */
const OWN: readonly Regime[] = [
  {
    name: 'worn, regular bed, cloth and old seams inspected',
    use: 'regular_bed',
    rate: 1,
    wear: { known: 15 },
    elements: [cloth(WORN), cloth(WORN, 112)],
  },
  {
    name: 'sound, guest bed, two fabrics, seams, resewn seams not inspected',
    use: 'guest_bed',
    rate: 0.32,
    wear: { known: 20 },
    elements: [cloth(SOUND, 32), cloth(SOUND, 32), cloth(SOUND, 112), cloth(SOUND, 18, 0)],
  },
  {
    name: 'weak beside sound, on display',
    use: 'display',
    rate: 0.16,
    wear: { known: 30 },
    elements: [cloth(WEAK, 40), cloth(SOUND, 60)],
  },
  {
    name: 'worn, child’s bed, few units, half looked at',
    use: 'child_bed',
    rate: 2.3,
    wear: { known: 5 },
    elements: [cloth(WORN, 20, 10), cloth(SOUND, 31, 31)],
  },
  {
    name: 'worn, history unknown, 70 years old',
    use: 'regular_bed',
    rate: 1,
    wear: { madeYearsAgo: 70 },
    elements: [cloth(WORN), cloth(WORN, 112)],
  },
  {
    name: 'grade unknown, regular bed',
    use: 'regular_bed',
    rate: 1,
    wear: { known: 12 },
    elements: [cloth({ [SOUND]: 0.3, [WORN]: 0.35, [WEAK]: 0.22, [FRAGILE]: 0.13 })],
  },
  {
    name: 'fragile, stored, ten of two hundred looked at',
    use: 'storage',
    rate: 0.05,
    wear: { known: 10 },
    elements: [cloth(FRAGILE, 200, 10)],
  },
  {
    name: 'grade and history unknown, three fabrics, age unknown',
    use: 'regular_bed',
    rate: 1,
    wear: { madeYearsAgo: undefined },
    elements: [
      cloth({ [SOUND]: 0.4, [WORN]: 0.6 }),
      cloth(WORN, 40),
      cloth({ [WORN]: 0.5, [WEAK]: 0.5 }, 90),
    ],
  },
];

const BASE = {
  use: 'regular_bed',
  rate: 1,
  wear: { known: 15 },
  elements: [cloth(WORN), cloth(WORN, 40), cloth(WORN, 112)],
} as const;

/** Quilts the model does not believe in. */
const OTHER: readonly (Regime & { readonly least: number })[] = [
  { ...BASE, name: 'as believed', least: 0.77 },
  { ...BASE, name: 'shape half of what is believed', twist: { shape: 0.5 }, least: 0.6 },
  { ...BASE, name: 'one fabric of two a grade worse than graded', twist: { worse: [1, 0, 0] }, least: 0.2 },
  { ...BASE, name: 'everything a grade worse than graded', twist: { worse: [1, 1, 1] }, least: 0.1 },
  {
    ...BASE,
    name: 'sound graded, worn in truth',
    elements: [cloth(SOUND), cloth(SOUND, 40), cloth(SOUND, 112)],
    twist: { worse: [1, 1, 1] },
    least: 0.3,
  },
  { ...BASE, name: 'history told is half the truth', twist: { moreWear: 2 }, least: 0.6 },
  { ...BASE, name: 'used half as hard again as intended', twist: { harderUse: 1.5 }, least: 0.3 },
  { ...BASE, name: 'failed units cannot fail again', twist: { survivorsOnly: true }, least: 0.7 },
  {
    ...BASE,
    name: 'history unknown, in truth twice the guess',
    wear: { madeYearsAgo: 70 },
    twist: { moreWear: 2 },
    least: 0.6,
  },
];

const percent = (x: number): string => `${(100 * x).toFixed(1).padStart(5)} %`;
const row = ({ name, covered, tooShort, tooLong, medianWidth }: Coverage): string =>
  `| ${name} | ${percent(covered)} | ${percent(tooShort)} | ${percent(tooLong)} | × ${medianWidth.toFixed(1)} |`;
const HEAD =
  '| quilts | within the 80 % range | sooner | later | high ÷ low, median |\n|---|---|---|---|---|';

describe('calibration on simulated quilts', () => {
  it('covers close to 80 % where the quilts are such as the model believes in', () => {
    const rows = OWN.map((regime, i) => coverage(model, prior, regime, QUILTS, 1000 + i));
    console.log(`${QUILTS} quilts a regime\n${HEAD}\n${rows.map(row).join('\n')}`);
    for (const { name, covered } of rows) {
      // A share of 80 % in 500 quilts has a standard error of 2 %.
      expect(covered, name).toBeGreaterThan(FULL ? 0.77 : 0.75);
      expect(covered, name).toBeLessThan(FULL ? 0.85 : 0.86);
    }
  });

  it('says by how much it misses where they are not', () => {
    const rows = OTHER.map((regime, i) => ({
      ...coverage(model, prior, regime, QUILTS, 2000 + i),
      least: regime.least,
    }));
    console.log(`${QUILTS} quilts a regime\n${HEAD}\n${rows.map(row).join('\n')}`);
    for (const { name, covered, least } of rows) {
      expect(covered, name).toBeGreaterThan(least);
      expect(covered, name).toBeLessThan(0.88);
    }
    // being told a better grade than the truth makes repairs come sooner than forecast, not later
    const worse = rows.find(({ name }) => name === 'everything a grade worse than graded');
    expect(worse?.tooShort).toBeGreaterThan(worse?.tooLong ?? 1);
  });
});
