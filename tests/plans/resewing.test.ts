import { describe, expect, it } from 'vitest';
import { hours } from '../../src/estimates/hours.ts';
import { materials } from '../../src/estimates/materials/materials.ts';
import { defaultStudio, price } from '../../src/estimates/price.ts';
import { resewn } from '../../src/estimates/resewn.ts';
import type { SurveyedJoins } from '../../src/findings/surveyed.ts';
import { candidatePlans } from '../../src/plans/candidates.ts';
import type { Plan, PlanSpec } from '../../src/plans/model.ts';
import { resewnJoins } from '../../src/plans/resewing.ts';
import { sampleOf, seeded } from '../../src/statistics/seeded.ts';
import { shippedFigures, spread } from '../estimates/trade-plans.ts';

// Common practice, no source, throughout: which seams are sewn again when some have opened.
const figures = shippedFigures();
const APART = { joining: 'none', pattern: 'none', directions: 'both' } as const;
type Ditches = Pick<PlanSpec, 'joining' | 'pattern' | 'directions'>;

/** 64 nine-patches: 14 seam lines of 8 joins, 112 in all. */
const quilt = (joins: Partial<SurveyedJoins>) => ({
  ...spread.quilt,
  joins: { ...spread.quilt.joins, inspected: 112, ...joins },
});
const sewn = (joins: Partial<SurveyedJoins>, spec: Ditches = APART) =>
  resewnJoins(quilt(joins), spec, figures);
const at = (...pairs: readonly string[]): SurveyedJoins['openAt'] =>
  pairs.map((pair) => {
    const [a = '', b = '', cause = 'thread'] = pair.split(' ');
    return { a, b, cause: cause as 'thread' | 'cloth' };
  });
const listed = (...pairs: readonly string[]): Partial<SurveyedJoins> => {
  const openAt = at(...pairs);
  return { open: openAt.length, cloth: openAt.filter(({ cause }) => cause === 'cloth').length, openAt };
};

describe('how many seams are sewn again where nobody noted which have opened', () => {
  // Of 101 joins the fellows of an open one are 100, so that each open fellow is 1 %.
  it.each([
    [0, 0, 'none has opened'],
    [1, 1, 'one alone is an accident'],
    [3, 3, 'up to 2 % open they are closed where they are'],
    [6, 20, 'at 5 %: 6, and 15 % of the 95 closed'],
    [21, 67, 'at 20 %, half way from 5 to 35 %: 21, and 57.5 % of the 80 closed'],
    [36, 101, 'at 35 % the thread is rotten throughout'],
    [101, 101, 'all have opened'],
  ])('%d of 101 open: %d (%s)', (open, all) => {
    expect(sewn({ total: 101, inspected: 101, open }).joins).toBe(all);
  });

  it('goes by what thread and allowance opened: torn cloth says nothing of the thread beside it', () => {
    // 21 open, 20 of them torn: one is left to the thread, an accident.
    expect(sewn({ total: 101, inspected: 101, open: 21, cloth: 20 })).toMatchObject({ joins: 21, moved: 20 });
  });

  it('reckons from the part looked at to the whole', () => {
    // 6 of 101 open (5 %), of 202 in all: 12, and 15 % of 190 closed; 40.5, told as 41.
    expect(sewn({ total: 202, inspected: 101, open: 6 }).joins).toBe(41);
  });

  it('is what was seen open where nobody counted how many were looked at', () => {
    expect(sewn({ inspected: undefined, open: 7 }).joins).toBe(7);
  });
});

describe('how many are sewn again, told in two ways', () => {
  it.each([4, 9, 15, 22, 30, 40, 60])(
    '%d of 112 counted: as many as if they were listed, on average',
    (open) => {
      const random = seeded(`listed ${open}`);
      const all = spread.quilt.piecework.joins.map(({ a, b }) => `${a} ${b}`);
      const listings = Array.from({ length: 300 }, () => sewn(listed(...sampleOf(all, open, random))).joins);
      const mean = listings.reduce((sum, each) => sum + each, 0) / listings.length;
      expect(Math.abs(sewn({ open }).joins - mean)).toBeLessThan(1);
    },
  );
});

describe('how many are sewn again where each open one is listed', () => {
  it('one popped seam is closed, and nothing beside it', () => {
    expect(sewn(listed('C3 C4')).joins).toBe(1);
  });

  it('goes by seam line: what failed together is one line, what failed apart are accidents', () => {
    // Three of the eight joins of one line: of an open one's seven fellows two are open, 28.6 %. From 5 to 35 % the share
    // rises from 0.15 to 1, so 0.15 + 0.85 × 0.236 ÷ 0.3 = 0.818 of the five closed: 4.1, and the three.
    const together = sewn(listed('A3 A4', 'B3 B4', 'C3 C4'));
    expect(together.joins).toBe(7);
    expect(together.beside?.get('down-3')).toBeCloseTo(0.8178, 3);
    expect(together.beside?.get('down-4')).toBe(0);
    expect(sewn(listed('A1 A2', 'C3 C4', 'E5 E6')).joins).toBe(3);
  });

  it('sews again on those lines, by their inches', () => {
    const plan: Plan = {
      ...spread,
      quilt: quilt(listed('A3 A4', 'B3 B4', 'C3 C4')),
      resewn: { by: 'hand', ...sewn(listed('A3 A4', 'B3 B4', 'C3 C4')) },
    };
    // Joins of 9 in: three, and 0.8178 of five.
    expect(resewn(plan).inches).toBeCloseTo(9 * (3 + 5 * 0.8178), 1);
  });

  it('never sews torn cloth on its old line again', () => {
    const joins = listed('A3 A4', 'C5 C6 cloth');
    const plan: Plan = {
      ...spread,
      quilt: quilt(joins),
      resewn: { by: 'hand', ...sewn(joins) },
    };
    // One join of 9 in with two sides on its line, one beside it.
    expect(resewn(plan)).toMatchObject({ oldSides: 18, movedSides: 18 });
  });
});

describe('a line of quilting in the ditch of a seam', () => {
  const lined = (pattern: PlanSpec['pattern'], directions: PlanSpec['directions'] = 'both'): Ditches => ({
    joining: 'lines',
    pattern,
    directions,
  });

  it('counts as its mending: only what is open is sewn', () => {
    expect(sewn({ open: 40 }, lined('every seam')).joins).toBe(40);
    expect(sewn({ open: 40 }).joins).toBeGreaterThan(40);
    expect(sewn(listed('A3 A4', 'B3 B4', 'C3 C4'), lined('every seam')).joins).toBe(3);
  });

  it('counts on the seams it runs along, not on those across', () => {
    // 7 of the 14 lines run down; half of the closed ones sewn again are on those across.
    const beside = sewn({ open: 40 }).joins - 40;
    expect(
      Math.abs(sewn({ open: 40 }, lined('every seam', 'down')).joins - 40 - beside / 2),
    ).toBeLessThanOrEqual(1);
    expect(sewn(listed('A3 A4', 'B3 B4', 'C3 C4'), lined('every seam', 'across')).joins).toBe(7);
  });
});

describe('between neighbouring shares of open seams', () => {
  const studio = defaultStudio(figures);
  const told = (open: number) => {
    const plans = candidatePlans(
      quilt({ total: 112, open }),
      { size: spread.quilt.size, backing: { kind: 'own' }, batting: { kind: 'none' } },
      spread.actions,
      figures,
    );
    const plan = plans.find(({ treatment }) => treatment === 'reassemble') ?? spread;
    const found = { found: { size: spread.quilt.size, backing: { kind: 'own' } } } as const;
    const bought = materials(plan, figures, found);
    return {
      joins: plan.resewn.joins,
      price: price(plan, hours(plan, figures, found), bought, { ...studio, rounding: 1 }, figures).likely,
    };
  };
  const shares = Array.from({ length: 113 }, (_, open) => told(open));
  const most = shares.at(-1) ?? { joins: 0, price: 0 };

  /** The largest step up or down from one open seam to the next, as a share of the whole. */
  const steepest = (values: readonly number[]): number =>
    Math.max(...values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? 0)))) /
    Math.max(...values);

  it('neither price nor the seams sewn again ever jump, and more open never means less sewn', () => {
    expect(most.joins).toBe(112);
    // One seam of 112 more; where the share rises fastest five closed ones with it, and one by rounding: 7 in 112.
    expect(steepest(shares.map(({ joins }) => joins))).toBeLessThanOrEqual(7 / 112);
    expect(steepest(shares.map((each) => each.price))).toBeLessThanOrEqual(7 / 112);
    for (const [index, { joins }] of shares.entries())
      expect(joins).toBeGreaterThanOrEqual(shares[index - 1]?.joins ?? 0);
  });

  it('a rule that turns over at a mark would be seen', () => {
    const atAMark = shares.map((_, open) => (open / 112 > 0.2 ? 112 : Math.min(112, 2 * open)));
    expect(steepest(atAMark)).toBeGreaterThan(0.5);
  });
});
