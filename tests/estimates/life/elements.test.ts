import { describe, expect, it } from 'vitest';
import { lifeInputs } from '../../../src/estimates/life/elements.ts';
import type { LifeElement } from '../../../src/estimates/life/model.ts';
import type { LifeContext } from '../../../src/estimates/life/plan-wear.ts';
import { lifeModel } from '../../../src/estimates/life/remaining-life.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { context, family, type Given, group, planOf } from './plans.ts';
import { shippedFigures } from './shipped-figures.ts';

const figures = shippedFigures();
const inputOf = (plan: Plan, given: LifeContext) => lifeInputs(given, figures)(plan, given.perforation);
const input = (given: Given = {}, changes: Partial<LifeContext> = {}) =>
  inputOf(planOf(given), context(changes));
const life = (given: Given = {}, changes: Partial<LifeContext> = {}) =>
  lifeModel(figures).remainingLife(input(given, changes));
const named = (elements: readonly LifeElement[], name: string): LifeElement => {
  const found = elements.find((element) => element.name === name);
  if (found === undefined) throw new Error(`no ${name} among ${elements.map((one) => one.name).join(', ')}`);
  return found;
};
/** Wear of an element at a grade, relative to plain use. */
const wearAt = (element: LifeElement, grade: number): number =>
  typeof element.wear === 'number' ? element.wear : (element.wear[grade] ?? 1);

const WEAK = 2;
const BROWN = 'the brown print';
const SEAMS = 'the old seams left as they are';

describe('elements of a plan', () => {
  it('are each fabric’s cloth and the old seams where nothing is sewn', () => {
    const { elements } = input({ plan: { treatment: 'leave' } });
    expect(elements.map(({ name }) => name)).toEqual([BROWN, 'the blue stripe', SEAMS]);
    expect(elements.map(({ units }) => units)).toEqual([10, 10, 31]);
  });

  it('take lost and missing units as failures of their fabric, of all its units', () => {
    const { elements } = input({
      groups: [
        [group('A', 6), 'keep'],
        [group('A', 3, 'lost'), 'patch_over'],
        [group('A', 1, 'missing'), 'replace'],
        [group('B', 8, 'hole'), 'keep'],
        [group('B', 2, 'unseen'), 'keep'],
      ],
    });
    expect(named(elements, BROWN)).toMatchObject({ units: 10, seen: 10, failed: 4 });
    // a hole is not a loss, and what nobody saw says nothing
    expect(named(elements, 'the blue stripe')).toMatchObject({ units: 10, seen: 8, failed: 0 });
    // four of twenty new: 2 × 0.2 × 0.8 of 31 joins have one new side
    expect(named(elements, 'the seams between old cloth and new').units).toBe(10);
  });

  it('count a fabric known by its share alone in pieces, because it lies in many blocks', () => {
    const nine = planOf({ groups: [[group(undefined, 20), 'keep']] });
    const pieced: Plan = {
      ...nine,
      quilt: { ...nine.quilt, piecework: { ...nine.quilt.piecework, piecesPerUnit: 9 } },
    };
    const unitsIn = (plan: Plan) => named(inputOf(plan, context()).elements, BROWN).units;
    // half of 20 blocks of nine pieces
    expect(unitsIn(pieced)).toBe(90);
    expect(unitsIn(nine)).toBe(10);
  });

  it('let thread speak for the seams and torn cloth for the weakest fabric', () => {
    const { elements } = input({
      families: [family('A', 'brown print', { fragility: WEAK }), family('B', 'blue stripe')],
      joins: { inspected: 30, open: 9, thread: 6, cloth: 2, allowance: 1 },
      plan: { resewn: { joins: 9, by: 'hand' } },
    });
    expect(named(elements, SEAMS)).toMatchObject({ units: 31, seen: 30, failed: 7 });
    expect(named(elements, BROWN)).toMatchObject({ seen: 25, failed: 2 });
    expect(named(elements, 'the blue stripe')).toMatchObject({ seen: 25, failed: 0 });
    const resewn = named(elements, 'the resewn seams');
    expect(resewn.seen).toBeUndefined();
    // the weaker side of a seam between halves of worn and weak cloth is weak three times in four
    expect(resewn.grade).toEqual({ 1: 0.25, 2: 0.75 });
  });

  it('place torn cloth by its position where the map tells whose it is', () => {
    const { elements } = input({
      families: [family('A', 'brown print'), family('B', 'blue stripe', { fragility: WEAK })],
      groups: [
        [group('A', 2, 'sound', ['A1', 'A2']), 'keep'],
        [group('A', 8), 'keep'],
        [group('B', 10), 'keep'],
      ],
      joins: {
        inspected: 30,
        open: 1,
        thread: 0,
        cloth: 1,
        allowance: 0,
        openAt: [{ a: 'A1', b: 'A2', cause: 'cloth' }],
      },
    });
    expect(named(elements, BROWN).failed).toBe(1);
    expect(named(elements, 'the blue stripe').failed).toBe(0);
  });

  it('keep what is taken out as evidence of wear only', () => {
    const { elements } = input({
      groups: [
        [group('A', 10, 'lost'), 'replace'],
        [group('B', 10), 'keep'],
      ],
      plan: { resewn: { joins: 31, by: 'hand' } },
    });
    expect(named(elements, BROWN)).toMatchObject({ gone: true, seen: 10, failed: 10 });
    expect(named(elements, SEAMS).gone).toBe(true);
  });

  it('wear as one where losses were not noted fabric by fabric', () => {
    const { elements } = input({
      families: [
        family('A', 'brown print', { fragility: WEAK, share: 0.4 }),
        family('B', 'blue stripe', { share: 0.6 }),
      ],
      groups: [
        [group(undefined, 12), 'keep'],
        [group(undefined, 8, 'lost'), 'patch_over'],
      ],
    });
    expect(named(elements, 'the old cloth')).toMatchObject({
      units: 20,
      seen: 20,
      failed: 8,
      grade: { 1: 0.6, 2: 0.4 },
    });
  });

  it('are graded by the vocabulary’s odds where nobody graded them in hand', () => {
    const { elements } = input({
      families: [family('A', 'brown print', { fragility: { lo: 2, hi: 4 } }), family('B', 'blue stripe')],
    });
    const { grade } = named(elements, BROWN);
    if (typeof grade === 'number') throw new Error('a span became one grade');
    expect(grade[2]).toBeCloseTo(0.22 / 0.4, 12);
    expect(grade[4]).toBeCloseTo(0.05 / 0.4, 12);
  });
});

describe('what a plan and its use do to wear', () => {
  const weak = {
    families: [family('A', 'brown print', { fragility: WEAK, share: 1 })],
    groups: [[group('A', 20), 'keep']],
  } as const;
  const brown = (given: Given, changes: Partial<LifeContext> = {}): number =>
    wearAt(named(input({ ...weak, ...given }, changes).elements, BROWN), WEAK);

  // the trade’s multipliers of life: common practice, no source
  it.each<[string, Given, Partial<LifeContext>, number]>([
    ['plain use', {}, {}, 1],
    ['a full backing under weak cloth', { plan: { backing: 'add' } }, {}, 1.5],
    ['a guest bed takes the full backing for granted', { plan: { backing: 'add' } }, { use: 'guest_bed' }, 1],
    ['and suffers where there is none', {}, { use: 'guest_bed' }, 1 / 1.5],
    ['a support under every unit', { groups: [[group('A', 20), 'support']] }, {}, 1.5],
    ['direct window light', {}, { directLight: true }, 0.4],
    ['stored in the dark there is none', {}, { directLight: true, use: 'storage' }, 1],
    ['machine washing', {}, { washing: 'machine' }, 0.6],
    ['nobody washes what hangs', {}, { washing: 'machine', use: 'display' }, 1],
    ['close stitching in lines', { plan: { joining: 'lines' } }, { perforation: 0.31 }, 0.7],
    ['close stitching elsewhere', {}, { perforation: 0.31 }, 1],
    [
      'a dye that destroys its cloth',
      { families: [family('A', 'brown print', { fragility: WEAK, share: 1, selfDestructing: true })] },
      {},
      0.6,
    ],
    ['light and machine', {}, { directLight: true, washing: 'machine' }, 0.24],
  ])('%s', (_what, given, changes, times) => {
    expect(1 / brown(given, changes)).toBeCloseTo(times, 12);
  });

  it('strong beside weak counts once such seams are more than a tenth', () => {
    const between = (fresh: number): number => {
      const { elements } = input({
        families: weak.families,
        groups: [
          [group('A', 20 - fresh), 'keep'],
          [group('A', fresh, 'lost'), 'patch_over'],
        ],
      });
      return wearAt(named(elements, 'the seams between old cloth and new'), WEAK);
    };
    expect(between(1)).toBeCloseTo(1, 12);
    expect(1 / between(4)).toBeCloseTo(0.7, 12);
  });

  it('a gap beyond the rating halves it; one not known counts both ways', () => {
    const plan = { batting: 'keep', gaps: { after: 8, rated: 4 } } as const;
    const within = life({ ...weak, plan: { ...plan, gaps: { after: 4, rated: 4 } } });
    const beyond = life({ ...weak, plan });
    const unknown = life({ ...weak, plan: { ...plan, gaps: { after: undefined, rated: 4 } } });
    expect(beyond.middle / within.middle).toBeCloseTo(0.5, 2);
    expect(unknown.middle).toBeLessThan(within.middle);
    expect(unknown.middle).toBeGreaterThan(beyond.middle);
    expect(unknown.high / unknown.low).toBeGreaterThan(within.high / within.low);
    expect(unknown.assumptions.join(' ')).toContain('both are counted');
    expect(life({ ...weak, plan: { ...plan, batting: 'none' } }).middle).toBeCloseTo(within.middle, 9);
  });

  it('adds up a known history and says what it leaves out', () => {
    expect(input().wear).toEqual({ known: 10 + 40 * 0.05 });
    expect(input({}, { ageYears: 80 }).assumptions?.join(' ')).toContain('30 years');
    expect(input({}, { history: undefined }).wear).toEqual({ madeYearsAgo: 50 });
    expect(input({}, { history: [] }).assumptions?.join(' ')).toContain('Nobody could say');
  });
});

describe('remaining life of a plan', () => {
  it('names the weakest link in words', () => {
    const given: Given = {
      families: [family('A', 'brown print', { fragility: 3 }), family('B', 'blue stripe', { fragility: 0 })],
    };
    const { weakestLink, low, high } = life(given, { use: 'storage' });
    expect(weakestLink).toBe(BROWN);
    expect(low).toBeGreaterThan(1);
    expect(high).toBeLessThan(50);
  });

  it('offers none while failing cloth governs, and leaves a little of it out of account, saying so', () => {
    const failing = (count: number): Given => ({
      families: [
        family('A', 'brown print', { fragility: 4, share: count / 20 }),
        family('B', 'blue stripe', { share: 1 - count / 20 }),
      ],
      groups: [
        [group('A', count), 'keep'],
        [group('B', 20 - count), 'keep'],
      ],
    });
    expect(life(failing(10))).toMatchObject({ low: 0, middle: 0, high: 0, weakestLink: BROWN });
    const little = life(failing(1));
    expect(little.middle).toBeGreaterThan(1);
    expect(little.assumptions.join(' ')).toContain('the brown print, 5 % of the top, will go on shedding');
  });

  it('is that of new cloth where all the old is gone', () => {
    const gone = life({
      groups: [
        [group('A', 10), 'replace'],
        [group('B', 10), 'replace'],
      ],
    });
    expect(gone.weakestLink).toBe('the new cloth');
    expect(gone.middle).toBeGreaterThan(5);
  });

  it('reckons refused infant sleep as storage', () => {
    const infant = life({}, { use: 'infant_sleep' });
    expect(infant.use).toBe('storage');
    expect(infant.middle).toBe(life({}, { use: 'storage' }).middle);
  });

  it('has a forecast where nothing at all is known', () => {
    const bare = life(
      { families: [], groups: [[group(undefined, 20, 'unseen'), 'keep']] },
      { history: undefined, ageYears: undefined, washing: undefined, directLight: undefined },
    );
    expect(bare.low).toBeLessThan(bare.middle);
    expect(bare.high).toBeGreaterThan(3 * bare.low);
    expect(bare.assumptions).toContain('Kept out of direct window light.');
  });
});
