import { describe, expect, it } from 'vitest';
import type { LifeElement, LifeInput } from '../../../src/estimates/life/model.ts';
import { lifePrior } from '../../../src/estimates/life/prior.ts';
import { lifeModel } from '../../../src/estimates/life/remaining-life.ts';
import { seeded } from './random.ts';
import { shippedFigures } from './shipped-figures.ts';

const figures = shippedFigures();
const models = [1, 2, 4].map((fineness) => lifeModel(figures, fineness));

type Evidence = readonly [grade: LifeElement['grade'], units: number, seen: number, failed: number];
const element = ([grade, units, seen, failed]: Evidence, i: number): LifeElement => ({
  name: `element ${i}`,
  grade,
  units,
  wear: 1 + 0.37 * i,
  ...(seen > 0 ? { seen, failed } : {}),
});
const input = (wear: LifeInput['wear'], evidence: readonly Evidence[]): LifeInput => ({
  elements: evidence.map(element),
  wear,
  ratePerYear: 1,
  rateSpread: 0.15,
  use: 'regular_bed',
});

/** Little and much evidence, fitting and contradicting the grade, few units and thousands. */
const CASES: readonly (readonly [string, LifeInput['wear'], readonly Evidence[]])[] = [
  ['nothing inspected', { known: 15 }, [[0, 64, 0, 0]]],
  ['much evidence', { known: 20 }, [[1, 2000, 2000, 200]]],
  ['evidence that contradicts the grade', { known: 20 }, [[1, 2000, 2000, 0]]],
  ['a young quilt', { known: 2 }, [[0, 40, 40, 1]]],
  ['mostly lost', { known: 60 }, [[2, 40, 40, 30]]],
  ['a grade unknown', { known: 60 }, [[{ 0: 0.2, 1: 0.3, 2: 0.3, 3: 0.1, 4: 0.1 }, 400, 400, 30]]],
  [
    'a history unknown',
    { madeYearsAgo: 70 },
    [
      [1, 2000, 2000, 200],
      [2, 1000, 1000, 50],
      [0, 500, 500, 100],
    ],
  ],
  [
    'four elements',
    { madeYearsAgo: 70 },
    [
      [1, 64, 64, 3],
      [0, 64, 64, 1],
      [2, 30, 30, 9],
      [1, 112, 112, 18],
      [1, 18, 0, 0],
    ],
  ],
  [
    'an age unknown, all of three lost',
    { madeYearsAgo: undefined },
    [
      [0, 10, 10, 0],
      [0, 3, 3, 3],
    ],
  ],
  [
    'most of 2900 patches lost',
    { madeYearsAgo: 120 },
    [[{ 0: 0.25, 1: 0.35, 2: 0.22, 3: 0.13 }, 2900, 2900, 1650]],
  ],
];

describe('the quadrature', () => {
  it.each(CASES)(
    'is fine enough that refining it twice changes no figure by 1 %%: %s',
    (_what, wear, evidence) => {
      const [plain, finer, finest] = models.map((model) => model.remainingLife(input(wear, evidence)));
      if (plain === undefined || finer === undefined || finest === undefined) throw new Error('no forecast');
      for (const figure of ['low', 'middle', 'high'] as const) {
        expect(Math.abs(plain[figure] / finer[figure] - 1), figure).toBeLessThan(0.01);
        expect(Math.abs(plain[figure] / finest[figure] - 1), figure).toBeLessThan(0.01);
      }
    },
  );

  // An independent way to the same posterior: draw from the prior, weight by the binomial likelihood.
  it('agrees with weighted draws from the prior', () => {
    const prior = lifePrior(figures);
    const random = seeded(7);
    const [A, seen, failed, units] = [15, 64, 9, 64];
    const j = Math.ceil(prior.share * units);
    const draws = Array.from({ length: 60_000 }, () => {
      const r = random.lognormal(prior.due[1]?.median ?? 0, prior.due[1]?.spread ?? 0);
      const k = random.lognormal(prior.shape.median, prior.shape.spread);
      const passed = -Math.log(1 - prior.share) / ((1 + r / A) ** k - 1);
      const weight = (1 - Math.exp(-passed)) ** failed * Math.exp(-passed) ** (seen - failed);
      // j-th of N exponentials by its spacings (Rényi 1953, from memory)
      let hazard = 0;
      for (let i = 0; i < j; i++) hazard += random.exponential() / (units - i);
      const years = (A * ((1 + hazard / passed) ** (1 / k) - 1)) / random.lognormal(1, 0.15);
      return { years, weight };
    }).sort((a, b) => a.years - b.years);
    const total = draws.reduce((sum, { weight }) => sum + weight, 0);
    const quantile = (p: number): number => {
      let sum = 0;
      for (const { years, weight } of draws) {
        sum += weight;
        if (sum >= p * total) return years;
      }
      return 0;
    };
    const life = models[0]?.remainingLife(input({ known: A }, [[1, units, seen, failed]]));
    // 60,000 draws leave a standard error of about 0.5 % in these quantiles
    for (const [figure, p] of [
      ['low', 0.1],
      ['middle', 0.5],
      ['high', 0.9],
    ] as const) {
      expect(Math.abs((life?.[figure] ?? 0) / quantile(p) - 1), figure).toBeLessThan(0.025);
    }
  });
});
