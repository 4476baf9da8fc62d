import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LayoutSpec } from '../../../src/casebook/model.ts';
import { ACTIONS, type Action, type UnitState } from '../../../src/casebook/scales.ts';
import { holes, type Sewing, type SewingContext, sewingOf } from '../../../src/estimates/holes/holes.ts';
import { lowSide } from '../../../src/estimates/holes/lines.ts';
import { hasOld, plannedTop } from '../../../src/estimates/holes/planned-top.ts';
import { layOut } from '../../../src/piecework/lay-out.ts';
import type { Plan, PlanSpec } from '../../../src/plans/model.ts';
import { FIGURES, planFor, type Work, withFigures } from './fixtures.ts';
import { joinings } from './joinings.ts';

const size = { width: 60, height: 72 };
const layouts = fc.record({
  kind: fc.constantFrom<LayoutSpec['kind']>('edge to edge', 'sashed', 'on point', 'survey grid'),
  rows: fc.integer({ min: 1, max: 6 }),
  columns: fc.integer({ min: 1, max: 6 }),
  sashing: fc.constant(1.5),
});
const rest = fc.record({
  backing: fc.constantFrom<PlanSpec['backing']>('keep', 'add', 'replace', 'none'),
  sewnBy: fc.constantFrom('hand' as const, 'machine' as const),
  opens: fc.boolean(),
  resewn: fc.record({ joins: fc.nat({ max: 30 }), by: fc.constantFrom('hand' as const, 'machine' as const) }),
});
const contexts = fc.record({
  piecing: fc.constantFrom(undefined, 'hand' as const, 'machine' as const),
  originalStitchesPerInch: fc.constantFrom(undefined, 6, 10),
  oldFastenings: fc.constantFrom<SewingContext['oldFastenings']>(
    undefined,
    { kind: 'ties', gap: 5, restored: 0.1 },
    { kind: 'lines', gap: 3 },
    { kind: 'all_over' },
  ),
  oldBacking: fc.constantFrom(undefined, true, false),
  sleeve: fc.boolean(),
});

/** Random work on random units, by position or, with `mapped` false, by number only. */
const plans = fc
  .tuple(
    layouts,
    joinings,
    rest,
    fc.infiniteStream(
      fc.tuple(fc.constantFrom(...ACTIONS), fc.constantFrom<UnitState>('sound', 'lost', 'missing')),
    ),
    fc.boolean(),
  )
  .map(([layout, spec, more, planOutcomes, mapped]): Plan => {
    const units = layOut(layout, size).units.filter((unit) => unit.part === 'whole');
    const work = units.map(({ at }): Work => {
      const [action, state] = planOutcomes.next().value ?? ['keep', 'sound'];
      return mapped ? { action, state, where: [at] } : { action, state, count: 1 };
    });
    return planFor(layout, size, work, { ...spec, ...more }, mapped);
  });

const total = ({ punctures }: Sewing): number => punctures.reduce((sum, each) => sum + each.holes, 0);
const sum = (numbers: readonly number[]): number => numbers.reduce((all, each) => all + each, 0);

describe('holes of any plan', () => {
  it('are never fewer than none, and never more re-used than made', () => {
    fc.assert(
      fc.property(plans, contexts, (plan, context) => {
        for (const sewing of sewingOf(plan, FIGURES, context))
          for (const { holes: made, reused } of sewing.punctures) {
            expect(reused).toBeGreaterThanOrEqual(0);
            expect(reused).toBeLessThanOrEqual(made);
          }
        const { byUnit, assumptions, ...numbers } = holes(plan, FIGURES, context);
        for (const number of Object.values(numbers)) expect(number).toBeGreaterThanOrEqual(0);
        expect(new Set(assumptions).size).toBe(assumptions.length);
        expect(byUnit === undefined).toBe(!plannedTop(plan).mapped);
      }),
    );
  });

  it('add up unit by unit to the new holes in the face and the allowances, where there is a map', () => {
    fc.assert(
      fc.property(plans, contexts, (plan, context) => {
        const { byUnit, newOldFace, newOldAllowance } = holes(plan, FIGURES, context);
        if (byUnit === undefined) return;
        expect(Object.keys(byUnit)).toEqual(plan.quilt.piecework.units.map(({ at }) => at));
        expect(sum(Object.values(byUnit))).toBe(newOldFace + newOldAllowance);
        for (const count of Object.values(byUnit)) expect(Number.isInteger(count) && count >= 0).toBe(true);
      }),
    );
  });

  it('lie in old cloth only: no unit that is new or gone shows any, unless all are', () => {
    fc.assert(
      fc.property(plans, contexts, (plan, context) => {
        const { byUnit } = holes(plan, FIGURES, context);
        const tops = plannedTop(plan);
        if (byUnit === undefined || !plan.quilt.piecework.units.some(({ at }) => hasOld(tops.at(at)))) return;
        // On sashed quilts the strips and cornerstones beside a unit are old whatever is done with the unit.
        if (plan.quilt.piecework.kind === 'sashed') return;
        for (const [at, count] of Object.entries(byUnit)) if (!hasOld(tops.at(at))) expect(count).toBe(0);
      }),
    );
  });

  it('are no fewer with finer stitches', () => {
    const finer = withFigures({
      'stitching.hand_joins': 10,
      'stitching.machine_joins': 2,
      'stitching.hand_lines': 10,
      'stitching.machine_lines': 2.5,
      'stitching.applique': 12,
      'stitching.overlay': 6,
      'stitching.support': 5,
      'stitching.whip': 10,
    });
    fc.assert(
      fc.property(plans, contexts, (plan, context) => {
        const [coarse, fine] = [FIGURES, finer].map((figures) =>
          sum(sewingOf(plan, figures, context).map(total)),
        );
        expect(fine).toBeGreaterThanOrEqual((coarse ?? 0) - 1e-6);
      }),
    );
  });

  it('are no more in old cloth along the lines when one more unit is replaced, whichever side is chosen', () => {
    fc.assert(
      fc.property(
        layouts,
        joinings,
        fc.boolean(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(),
        (layout, spec, mapped, newSide, pick) => {
          const figures = withFigures({ 'stitching.new_side_of_the_ditch': newSide });
          const units = layOut(layout, size).units.filter((unit) => unit.part === 'whole');
          const at = units[pick % units.length]?.at ?? 'A1';
          const work = (action: Action): Work => (mapped ? { action, where: [at] } : { action, count: 1 });
          const inOld = (action: Action): number =>
            sum(
              sewingOf(planFor(layout, size, [work(action)], spec, mapped), figures)
                .filter(({ operation }) => operation === 'lines of quilting')
                .flatMap(({ punctures }) =>
                  punctures.filter(({ layer }) => layer === 'face').map((each) => each.holes),
                ),
            );
          expect(inOld('replace')).toBeLessThanOrEqual(inOld('keep') + 1e-6);
        },
      ),
    );
  });

  it('pierce the same length of line in the top whatever the map says, as long as no unit is missing', () => {
    fc.assert(
      fc.property(layouts, joinings, fc.nat({ max: 5 }), fc.boolean(), (layout, spec, replaced, mapped) => {
        const units = layOut(layout, size)
          .units.filter((unit) => unit.part === 'whole')
          .slice(0, replaced);
        const work = units.map(
          ({ at }): Work => (mapped ? { action: 'replace', where: [at] } : { action: 'replace', count: 1 }),
        );
        const plan = planFor(layout, size, work, { ...spec, backing: 'none' }, mapped);
        for (const sewing of sewingOf(plan, FIGURES)) {
          if (sewing.operation !== 'lines of quilting') continue;
          expect(total(sewing)).toBeCloseTo(sewing.amount * 16, 4);
        }
      }),
    );
  });

  it('are none where nothing is sewn', () => {
    const plan = planFor({ kind: 'edge to edge', rows: 4, columns: 4 }, size, [], { treatment: 'leave' });
    const { assumptions, byUnit, plainQuilt, ...numbers } = holes(plan, FIGURES, {
      oldFastenings: { kind: 'ties', gap: 5, restored: 0.1 },
    });
    expect([...new Set(Object.values(numbers))]).toEqual([0]);
    expect(assumptions).toEqual([]);
    expect(byUnit).toBeUndefined();
    // What it is told beside stays: how many a plain quilt of this size has.
    expect(plainQuilt).toBeGreaterThan(0);
  });
});

describe('the low side of a seam', () => {
  it('is either neighbour alike, and can be planned into new cloth as far as the figure says', () => {
    expect(lowSide('old', 'old', 1)).toBe(0.5);
    expect(lowSide('old', 'new', 0)).toBe(0.5);
    expect(lowSide('old', 'new', 1)).toBe(0);
    expect(lowSide('new', 'old', 1)).toBe(1);
    expect(lowSide('gone', 'old', 0)).toBe(0);
  });
});
