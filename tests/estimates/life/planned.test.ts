import { describe, expect, it } from 'vitest';
import type { Use } from '../../../src/casebook/scales.ts';
import { evidenceOf } from '../../../src/estimates/life/fabrics.ts';
import { carePace, gapPace, pastWear } from '../../../src/estimates/life/pace.ts';
import { plannedQuilt } from '../../../src/estimates/life/planned.ts';
import { lifeForecaster } from '../../../src/estimates/life/remaining-life.ts';
import type { HoleEstimate } from '../../../src/estimates/model.ts';
import type { SurveyedQuilt } from '../../../src/findings/surveyed.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { family, type Given, group, planOf } from './plans.ts';
import { shippedFigures } from './shipped-figures.ts';

const figures = shippedFigures();
const WEAK = 2;
const ODDS = [0.25, 0.35, 0.22, 0.13, 0.05];

const evidence = (given: Given = {}) => evidenceOf(planOf(given).quilt, { known: 12 }, ODDS).evidence;
const planned = (given: Given = {}, use: Use = 'regular_bed', perforation = 0) => {
  const plan = planOf(given);
  const { order } = evidenceOf(plan.quilt, { known: 12 }, ODDS);
  return plannedQuilt(plan, perforation, { use, quilt: {}, order, figures });
};
const HOLES: HoleEstimate = {
  newOldFace: 0,
  newOldAllowance: 0,
  newOldBacking: 0,
  reused: 0,
  newCloth: 0,
  inherited: 0,
  burden: 0,
  plainQuilt: 1,
  perforation: 0,
  byUnit: undefined,
  assumptions: [],
};
const life = (given: Given = {}, changes: Partial<Parameters<typeof lifeForecaster>[0]> = {}) =>
  lifeForecaster({
    latest: {
      client: {},
      quilt: { size: { width: 50, height: 40 } },
      history: [{ use: 'regular_bed', years: 12 }],
    },
    use: 'regular_bed',
    washing: 'hand',
    directLight: false,
    ageYears: 50,
    gradeOdds: ODDS,
    figures,
    ...changes,
  })(planOf(given), HOLES);

describe('what a survey tells', () => {
  it('puts fabrics alike in grade and dye together as one kind of cloth', () => {
    const alike = evidence();
    expect(alike.kinds).toHaveLength(1);
    expect(alike.kinds[0]).toMatchObject({ share: 1, seen: 20, untold: 0 });
    const apart = evidence({
      families: [family('A', 'brown print', { selfDestructing: true }), family('B', 'blue stripe')],
    });
    expect(apart.kinds).toHaveLength(2);
  });

  it('counts lost, missing, holed, split and mended units as damage, and what nobody saw as nothing', () => {
    const { kinds } = evidence({
      families: [family('A', 'brown print', { fragility: WEAK }), family('B', 'blue stripe')],
      groups: [
        [group('A', 6), 'keep'],
        [group('A', 3, 'lost'), 'patch_over'],
        [group('A', 1, 'missing'), 'replace'],
        [group('B', 7, 'hole'), 'keep'],
        [group('B', 1, 'repaired'), 'keep'],
        [group('B', 2, 'unseen'), 'keep'],
      ],
    });
    expect(kinds.map(({ seen, untold }) => [seen, untold])).toEqual([
      [10, 4],
      [8, 8],
    ]);
  });

  /** Of 20 units 4 are lost, on a map where the fabrics of places are known. */
  const bitten = (causes: NonNullable<SurveyedQuilt['causes']>): Given => ({
    families: [family('A', 'brown print', { fragility: WEAK }), family('B', 'blue stripe')],
    groups: [
      [group('A', 8, 'sound', EIGHT), 'keep'],
      [group('A', 2, 'lost', ['A1', 'A2']), 'patch_over'],
      [group('B', 8, 'sound', OTHERS), 'keep'],
      [group('B', 2, 'hole', ['D4', 'D5']), 'patch_over'],
    ],
    joins: { inspected: 31, open: 6, thread: 4, cloth: 2, allowance: 0 },
    causes,
  });
  const EIGHT = ['A3', 'A4', 'A5', 'B1', 'B2', 'B3', 'B4', 'B5'];
  const OTHERS = ['C1', 'C2', 'C3', 'C4', 'C5', 'D1', 'D2', 'D3'];

  it('leaves what accidents, animals and insects took out of both counts, and takes wear, washing and light as wear', () => {
    for (const why of ['accident', 'animals', 'insects'] as const) {
      const { kinds } = evidence(bitten([{ places: ['A1', 'A2'], why }]));
      expect(kinds.map(({ seen, worn, untold }) => [seen, worn, untold])).toEqual([
        [8, 0, 0],
        [10, 0, 2],
      ]);
    }
    for (const why of ['wear', 'washing', 'light'] as const) {
      const { kinds } = evidence(bitten([{ places: ['D4'], why }, { places: ['A1'] }]));
      expect(kinds.map(({ seen, worn, untold }) => [seen, worn, untold])).toEqual([
        [10, 0, 2],
        [10, 1, 1],
      ]);
    }
  });

  it('spreads causes told by number over all that is not named, and a cause of all over the rest', () => {
    const causes = [
      { places: ['A1'], why: 'wear' },
      { places: 'units', count: 1, why: 'accident' },
      { places: 'units', why: 'light' },
    ] as const;
    const { kinds } = evidence(bitten(causes));
    // of three that are not named one is an accident, wherever it lies
    expect(kinds[0]?.seen).toBeCloseTo(10 - 1 / 3, 12);
    expect(kinds[0]?.worn).toBeCloseTo(1 + 2 / 3, 12);
    expect(kinds[1]?.seen).toBeCloseTo(10 - 2 / 3, 12);
    expect(kinds.map(({ untold }) => untold)).toEqual([0, 0]);
  });

  it('leaves seams that an accident opened out of what is seen of them', () => {
    expect(evidence(bitten([{ places: 'joins', count: 3, why: 'animals' }])).seams).toEqual({
      seen: 28,
      thread: 2,
      cloth: 1,
      untold: 0,
    });
    expect(evidence(bitten([{ places: 'joins', why: 'wear' }])).seams).toMatchObject({ seen: 31, thread: 4 });
  });

  it('forecasts a quilt after an accident, once mended, as before it; and told as wear it would not', () => {
    const before = life({
      groups: [
        [group('A', 10), 'keep'],
        [group('B', 10), 'keep'],
      ],
    });
    const mended = (causes: NonNullable<SurveyedQuilt['causes']>) =>
      life({
        groups: [
          [group('A', 9), 'keep'],
          [group('A', 1, 'lost'), 'replace'],
          [group('B', 10), 'keep'],
        ],
        causes,
      });
    const accident = mended([{ places: 'units', why: 'accident' }]);
    expect(Math.abs(accident.middle / before.middle - 1)).toBeLessThan(0.1);
    const [untold, worn] = [mended([]), mended([{ places: 'units', why: 'wear' }])];
    // no cause told lies between the two: it may have been either
    expect(accident.middle).toBeGreaterThan(untold.middle);
    expect(untold.middle).toBeGreaterThan(worn.middle);
  });

  it('tells seams opened by cloth from those opened by thread or by a ravelled allowance', () => {
    expect(evidence({ joins: { inspected: 30, open: 9, thread: 5, cloth: 2, allowance: 1 } }).seams).toEqual({
      seen: 30,
      thread: 6,
      cloth: 2,
      untold: 1,
    });
    expect(evidence({ joins: { inspected: 30 } }).seams.seen).toBe(0);
  });

  it('grades by the vocabulary’s odds what nobody graded in hand', () => {
    const { kinds } = evidence({
      families: [family('A', 'brown print', { fragility: { lo: 2, hi: 4 } }), family('B', 'blue stripe')],
    });
    expect(kinds[0]?.grades[2]).toBeCloseTo(0.22 / 0.4, 12);
    expect(kinds[0]?.grades[4]).toBeCloseTo(0.05 / 0.4, 12);
  });
});

describe('what a plan leaves and does', () => {
  const weak: Given = {
    families: [family('A', 'brown print', { fragility: WEAK, share: 1 })],
    groups: [[group('A', 20), 'keep']],
  };
  const stretch = (given: Given, use: Use, perforation = 0) =>
    planned({ ...weak, ...given }, use, perforation).parts[0]?.stretch[WEAK];

  // the trade’s multipliers of life: common practice, no source
  it.each<[string, Given, Use, number, number]>([
    ['plain use', {}, 'regular_bed', 0, 1],
    ['a full backing under weak cloth', { plan: { backing: 'add' } }, 'regular_bed', 0, 1.5],
    ['a guest bed takes the full backing for granted', { plan: { backing: 'add' } }, 'guest_bed', 0, 1],
    ['and suffers where there is none', {}, 'guest_bed', 0, 1 / 1.5],
    ['a support under every unit', { groups: [[group('A', 20), 'support']] }, 'regular_bed', 0, 1.5],
    ['close stitching in lines', { plan: { joining: 'lines' } }, 'regular_bed', 0.31, 0.7],
    ['close stitching elsewhere', {}, 'regular_bed', 0.31, 1],
    [
      'a dye that destroys its cloth',
      { families: [family('A', 'brown print', { fragility: WEAK, share: 1, selfDestructing: true })] },
      'regular_bed',
      0,
      0.6,
    ],
  ])('%s', (_what, given, use, perforation, times) =>
    expect(stretch(given, use, perforation)).toBeCloseTo(times, 12),
  );

  it('spares the seams by its new joining, lines on every seam the most', () => {
    const held = (plan: Partial<Plan>) => planned({ plan }).held;
    expect(held({})).toBe(1);
    expect(held({ joining: 'tacks' })).toBe(0.9);
    expect(held({ joining: 'ties' })).toBe(0.8);
    expect(held({ joining: 'lines', pattern: 'every seam', directions: 'across' })).toBe(0.7);
    expect(held({ joining: 'lines', pattern: 'every seam', directions: 'both' })).toBe(0.4);
  });

  const damaged = (action: 'keep' | 'patch_over'): Given => ({
    groups: [
      [group('A', 10), 'keep'],
      [group('B', 8), 'keep'],
      [group('B', 2, 'lost'), action],
    ],
    joins: { inspected: 31, open: 4, thread: 4, cloth: 0, allowance: 0 },
  });

  it('leaves open what it does not mend, in the top and in the seams', () => {
    const alone = planned({ ...damaged('keep'), plan: { treatment: 'leave' } });
    expect(alone.open.cloth).toBeCloseTo(0.1, 12);
    expect(alone.open.seams).toBeCloseTo(4 / 31, 12);
    const mended = planned({ ...damaged('patch_over'), plan: { resewn: { joins: 8, by: 'hand' } } });
    expect(mended.open).toEqual({ cloth: 0, seams: 0 });
    expect(mended.fresh).toBeCloseTo(0.1, 12);
    // 2 of 20 new: 2 × 0.1 × 0.9 of the seams have one new side
    expect(mended.seams.mixed).toBeCloseTo(0.18, 12);
  });

  it('shares add up to the whole', () => {
    const { parts, fresh, seams } = planned({
      ...damaged('patch_over'),
      plan: { resewn: { joins: 8, by: 'hand' } },
    });
    expect(parts.reduce((sum, { share }) => sum + share, fresh)).toBeCloseTo(1, 12);
    expect(Object.values(seams).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  });
});

describe('the pace of wear', () => {
  const care = (use: Use, washing: 'hand' | 'machine' | undefined, directLight: boolean | undefined) =>
    carePace({ use, washing, directLight }, figures).value;

  it('counts machine washing once on a child’s bed, where the rate contains it', () => {
    expect(care('child_bed', 'machine', false)[0]?.wear).toBeCloseTo(1, 12);
    expect(care('child_bed', 'hand', false)[0]?.wear).toBeCloseTo(0.6, 12);
    expect(care('regular_bed', 'machine', false)[0]?.wear).toBeCloseTo(1 / 0.6, 12);
    expect(care('display', 'machine', false)[0]?.wear).toBe(1);
  });

  it('is a mixture where washing or light is not known, and says so', () => {
    expect(care('display', undefined, undefined)).toEqual([
      { weight: 0.5, wear: 1 },
      { weight: 0.5, wear: 2.5 },
    ]);
    const unknown = care('guest_bed', undefined, undefined);
    expect(unknown).toHaveLength(4);
    expect(unknown.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(care('storage', undefined, undefined)).toEqual([{ weight: 1, wear: 1 }]);
    expect(
      carePace({ use: 'guest_bed', washing: undefined, directLight: undefined }, figures).assumptions,
    ).toHaveLength(2);
  });

  it('is faster where a gap is beyond the filling’s reach: twice on a bed, a quarter more on display', () => {
    const gap = (use: Use) =>
      gapPace(planOf({ plan: { batting: 'keep', gaps: { after: 8, rated: 4 } } }), use, figures).value;
    expect(gap('regular_bed')[0]?.wear).toBeCloseTo(2, 12);
    expect(gap('display')[0]?.wear).toBeCloseTo(1.25, 12);
    expect(gap('storage')[0]?.wear).toBe(1);
  });

  it('adds up a known history and says what it leaves out', () => {
    const history = [
      { use: 'regular_bed', years: 10 },
      { use: 'storage', years: 40 },
    ] as const;
    expect(pastWear({ history, ageYears: 50 }, figures).value).toEqual({ known: 12 });
    expect(pastWear({ history, ageYears: 80 }, figures).assumptions.join(' ')).toContain('30 years');
    expect(pastWear({ history: [], ageYears: 50 }, figures).value).toEqual({ madeYearsAgo: 50 });
  });
});

describe('remaining life of a plan', () => {
  it('names what makes up most of the damage, in words', () => {
    const frail = {
      families: [family('A', 'brown print', { fragility: 3 }), family('B', 'blue stripe', { fragility: 0 })],
    };
    expect(life(frail, { use: 'storage' }).weakestLink).toBe('the brown print');
    expect(life().weakestLink).toBe('the old seams left as they are');
  });

  it('counts failing cloth as fragile and says that it may give way', () => {
    const of = (fragility: number) =>
      life({ families: [family('A', 'brown print', { fragility }), family('B', 'blue stripe')] });
    expect(of(4).middle).toBeCloseTo(of(3).middle, 6);
    expect(of(4).assumptions.join(' ')).toContain('may give way when next handled');
  });

  it('is longer where a worn-out binding or back is renewed', () => {
    const latest = {
      client: {},
      history: [{ use: 'regular_bed', years: 12 }],
      quilt: {
        size: { width: 50, height: 40 },
        binding: { fragility: 'fragile' },
        backing: { kind: 'own', fragility: 'weak' },
      },
    } as const;
    const old = life({}, { latest });
    expect(old.middle).toBeLessThan(0.6 * life({ plan: { backing: 'replace' } }, { latest }).middle);
    expect(['the binding', 'the old backing']).toContain(old.weakestLink);
  });

  // Hours, holes and cloth say the edge is bound anew wherever the layers are parted: so do the years.
  it('is longer where the quilt is opened and its worn-out binding made new', () => {
    const latest = {
      client: {},
      quilt: { size: { width: 50, height: 40 }, binding: { fragility: 'fragile' } },
      history: [{ use: 'regular_bed', years: 12 }],
    } as const;
    const [closed, opened] = [false, true].map((opens) => life({ plan: { opens } }, { latest }));
    expect(closed?.weakestLink).toBe('the binding');
    expect(opened?.weakestLink).not.toBe('the binding');
    expect(opened?.middle).toBeGreaterThan(1.3 * (closed?.middle ?? 0));
  });

  it('reckons refused infant sleep as storage', () => {
    const infant = life({}, { use: 'infant_sleep' });
    expect(infant.use).toBe('storage');
    expect(infant.middle).toBe(life({}, { use: 'storage' }).middle);
  });

  it('has a forecast where nothing at all is known, and all of it new cloth', () => {
    const bare = life(
      { families: [], groups: [[group(undefined, 20, 'unseen'), 'keep']] },
      {
        washing: undefined,
        directLight: undefined,
        ageYears: undefined,
        latest: { client: {}, quilt: { size: { width: 50, height: 40 } } },
      },
    );
    expect(bare.low).toBeLessThan(bare.middle);
    expect(bare.high).toBeGreaterThan(3 * bare.low);
    const renewed = life({
      groups: [
        [group('A', 10), 'replace'],
        [group('B', 10), 'replace'],
      ],
    });
    expect(renewed.middle).toBeGreaterThan(5);
  });
});
