import { describe, expect, it } from 'vitest';
import { lifePrior } from '../../../src/estimates/life/prior.ts';
import { FULL } from '../../tiers.ts';
import { shippedFigures } from './shipped-figures.ts';
import { outcomes, type Regime } from './simulate.ts';

const prior = lifePrior(shippedFigures());
/** Quilts in each row: of those the model believes in, and of the others, which are reported alone. */
const [QUILTS, OTHERS] = FULL ? [2000, 600] : [100, 100];

const [SOUND, WORN, WEAK, FRAGILE] = [0, 1, 2, 3];
const UNKNOWN = { [SOUND]: 0.26, [WORN]: 0.37, [WEAK]: 0.23, [FRAGILE]: 0.14 };

const BASE: Regime = {
  name: 'as believed',
  rate: 1,
  wear: { known: 15 },
  units: 100,
  joins: 180,
  inspected: 180,
  kinds: [
    { grade: WORN, share: 0.4 },
    { grade: SOUND, share: 0.35 },
    { grade: WEAK, share: 0.25 },
  ],
};

/** Quilts the model’s own priors make. */
const OWN: readonly Regime[] = [
  { ...BASE, name: 'worn, sound and weak, regular bed, all inspected' },
  { ...BASE, name: 'one worn fabric, regular bed', kinds: [{ grade: WORN, share: 1 }] },
  {
    ...BASE,
    name: 'one sound fabric, guest bed, seams not inspected',
    rate: 0.32,
    inspected: 0,
    kinds: [{ grade: SOUND, share: 1 }],
  },
  {
    ...BASE,
    name: 'weak beside sound, on display',
    rate: 0.16,
    wear: { known: 30 },
    kinds: [
      { grade: WEAK, share: 0.4 },
      { grade: SOUND, share: 0.6 },
    ],
  },
  {
    ...BASE,
    name: 'worn, child’s bed, few units',
    rate: 2.3,
    wear: { known: 5 },
    units: 20,
    joins: 31,
    inspected: 31,
    kinds: [{ grade: WORN, share: 1 }],
  },
  {
    ...BASE,
    name: 'worn and weak, history unknown, 70 years old',
    wear: { madeYearsAgo: 70 },
    kinds: [
      { grade: WORN, share: 0.7 },
      { grade: WEAK, share: 0.3 },
    ],
  },
  { ...BASE, name: 'grade unknown', wear: { known: 12 }, kinds: [{ grade: UNKNOWN, share: 1 }] },
  {
    ...BASE,
    name: 'grade, history and age unknown',
    wear: { madeYearsAgo: undefined },
    kinds: [
      { grade: UNKNOWN, share: 0.6 },
      { grade: WORN, share: 0.4 },
    ],
  },
  {
    ...BASE,
    name: 'fragile, stored, nothing looked at',
    rate: 0.05,
    inspected: 0,
    kinds: [{ grade: FRAGILE, share: 1, seen: false }],
  },
  { ...BASE, name: 'an accident took an eighth, and was told', twist: { accident: 0.125 } },
];

/** Quilts the model does not believe in. Reported, and not tuned to. */
const OTHER: readonly Regime[] = [
  BASE,
  { ...BASE, name: 'shape half of what is believed', twist: { shape: 0.5 } },
  { ...BASE, name: 'one fabric of three a grade worse than graded', twist: { worse: [1, 0, 0] } },
  { ...BASE, name: 'everything a grade worse than graded', twist: { worse: [1, 1, 1] } },
  { ...BASE, name: 'history told is half the truth', twist: { moreWear: 2 } },
  { ...BASE, name: 'used half as hard again as intended', twist: { harderUse: 1.5 } },
  { ...BASE, name: 'each fabric its own life', twist: { ownLives: 0.4 } },
  { ...BASE, name: 'clumps three times as strong', twist: { clumps: 3 } },
  { ...BASE, name: 'an untold accident took an eighth', told: false, twist: { accident: 0.125 } },
];

interface Row {
  readonly name: string;
  readonly inside: number;
  readonly sooner: number;
  readonly later: number;
  readonly width: number;
}

function row(regime: Regime, seed: number, quilts: number): Row {
  const all = outcomes({ prior, regime, lived: true }, quilts, seed);
  const share = (test: (rank: number) => boolean): number =>
    all.filter(({ rank }) => test(rank)).length / quilts;
  const widths = all.map(({ width }) => width).sort((a, b) => a - b);
  const [sooner, later] = [share((rank) => rank < 0.1), share((rank) => rank > 0.9)];
  return {
    name: regime.name,
    inside: 1 - sooner - later,
    sooner,
    later,
    width: widths[Math.floor(quilts / 2)] ?? 0,
  };
}

const percent = (x: number): string => `${(100 * x).toFixed(1).padStart(5)} %`;
const table = (rows: readonly Row[]): string =>
  [
    '| quilts | within the 80 % range | sooner | later | high ÷ low, median |',
    '|---|---|---|---|---|',
    ...rows.map(
      ({ name, inside, sooner, later, width }) =>
        `| ${name} | ${percent(inside)} | ${percent(sooner)} | ${percent(later)} | × ${width.toFixed(1)} |`,
    ),
  ].join('\n');

/**
 * A share of 80 % in so many quilts has a standard error of 4 % in the short tier and 0.9 % in the long. The model is a
 * little too wide where several kinds of cloth lie together, and a little too narrow where there are few units.
 */
const [LEAST, MOST] = FULL ? [0.7, 0.93] : [0.64, 0.97];

describe('calibration on simulated quilts', { timeout: 1_800_000 }, () => {
  it('covers close to 80 % where every unit and seam is lived out as the model believes', () => {
    const rows = OWN.map((regime, i) => row(regime, 1000 + i, QUILTS));
    console.log(table(rows));
    for (const { name, inside } of rows) {
      expect(inside, name).toBeGreaterThan(LEAST);
      expect(inside, name).toBeLessThan(MOST);
    }
  });

  it('says by how much it misses where they are not', () => {
    const rows = OTHER.map((regime, i) => row(regime, 2000 + i, OTHERS));
    console.log(table(rows));
    // being told a better grade than the truth makes repairs come sooner than forecast, not later
    const worse = rows.find(({ name }) => name === 'everything a grade worse than graded');
    expect(worse?.sooner).toBeGreaterThan(worse?.later ?? 1);
    expect(worse?.inside).toBeLessThan(rows[0]?.inside ?? 0);
  });

  // Simulation-based calibration: where truths are drawn as the model draws them, their ranks are uniform.
  it('ranks the truth uniformly over ten bins, told and untold', () => {
    const many = FULL ? 1000 : 400;
    for (const [i, regime] of [BASE, OWN[5], OWN[6]].entries()) {
      if (regime === undefined) throw new Error('no such regime');
      const bins = Array.from({ length: 10 }, () => 0);
      for (const { rank } of outcomes({ prior, regime, lived: false }, many, 3000 + i)) {
        const bin = Math.min(9, Math.floor(10 * rank));
        bins[bin] = (bins[bin] ?? 0) + 1;
      }
      const chi = bins.reduce((sum, count) => sum + (count - many / 10) ** 2 / (many / 10), 0);
      console.log(`${regime.name}: ranks ${bins.join(' ')}, chi-squared ${chi.toFixed(1)} on 9`);
      // chi-squared on 9 degrees of freedom passes 27.9 once in a thousand (table value); the sums are close, not exact
      expect(chi, regime.name).toBeLessThan(27.9);
    }
  });
});
