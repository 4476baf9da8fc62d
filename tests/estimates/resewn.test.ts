import { describe, expect, it } from 'vitest';
import { holes } from '../../src/estimates/holes/holes.ts';
import { hours } from '../../src/estimates/hours.ts';
import { resewn } from '../../src/estimates/resewn.ts';
import type { Plan } from '../../src/plans/model.ts';
import { FIGURES, planFor, type Work } from './holes/fixtures.ts';
import { shippedFigures } from './trade-plans.ts';

// Four blocks of 4 in × 6 in: joins side by side are 6 in long, one above the other 4 in. Geometry.
const layout = { kind: 'edge to edge', rows: 2, columns: 2, finished: { width: 4, height: 6 } } as const;
const size = { width: 8, height: 12 };

type Pair = readonly [string, string];
const plan = (open: readonly Pair[], joins = open.length, work: readonly Work[] = []): Plan => {
  const bare = planFor(layout, size, work, { resewn: { joins, by: 'hand' } }, work.length > 0);
  const openAt = open.map(([a, b]) => ({ a, b, cause: 'thread' as const }));
  return { ...bare, quilt: { ...bare.quilt, joins: { ...bare.quilt.joins, openAt } } };
};

describe('inches of joins sewn again', () => {
  it('are those of the joins listed as open, not so many mean joins', () => {
    expect(resewn(plan([['A1', 'A2']])).inches).toBe(6);
    expect(resewn(plan([['B1', 'A1']])).inches).toBe(4);
    expect(resewn(plan([], 1)).inches).toBe(5);
  });

  it('take the mean of the joins not listed for what is resewn beside them', () => {
    expect(
      resewn(
        plan(
          [
            ['A1', 'A2'],
            ['B1', 'B2'],
          ],
          3,
        ),
      ).inches,
    ).toBe(6 + 6 + 4);
    expect(resewn(plan([['A1', 'A2']], 4)).inches).toBeCloseTo(20, 12);
  });

  it('leave joins of a unit that is replaced to its setting in, and those of a unit taken out to nobody', () => {
    const open = [
      ['A1', 'A2'],
      ['B1', 'B2'],
    ] as const;
    expect(resewn(plan(open, 2, [{ action: 'replace', where: ['A1'] }]))).toMatchObject({
      joins: 1,
      inches: 6,
      oldSides: 12,
    });
    expect(resewn(plan(open, 2, [{ action: 'remove', where: ['B2'] }])).joins).toBe(1);
    // All four asked for: two of them are sewn when A1 is set in.
    expect(resewn(plan(open, 4, [{ action: 'replace', where: ['A1'] }])).inches).toBe(6 + 4);
  });

  it('count new cloth where a patch fills the place of a missing unit', () => {
    const patched: Work = { action: 'patch_over', state: 'missing', where: ['A2'] };
    expect(resewn(plan([['A1', 'A2']], 1, [patched]))).toMatchObject({ oldSides: 6, newSides: 6 });
  });

  it('are the same for holes, thread and hours', () => {
    const one = plan([['A1', 'A2']]);
    // A quilt that stays closed is closed from the front: 6 in × 8 rungs × two folds, seven in ten through old holes
    // (common practice, no source). The stitch that is priced is the stitch that is counted.
    expect(holes(one, FIGURES).newOldAllowance).toBe(Math.round(6 * 8 * 2 * 0.3));
    const inside = { ...one, backing: 'none' } as const;
    expect(holes(inside, FIGURES).newOldAllowance).toBe(Math.round(6 * 16 * 2 * 0.3));
    expect(
      hours(one, shippedFigures()).operations.find(({ operation }) => operation.includes('seams'))?.count,
    ).toBe(6);
  });

  it('are none where nothing is sewn', () => {
    expect(resewn({ ...plan([['A1', 'A2']]), resewn: { joins: 0, by: 'hand' } }).inches).toBe(0);
  });
});
