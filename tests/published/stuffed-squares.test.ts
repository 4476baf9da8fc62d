import { describe, expect, test } from 'vitest';
import { materials } from '../../src/estimates/materials/materials.ts';
import type { Plan } from '../../src/plans/model.ts';
import { type Lot, planFor, shippedFigures } from '../estimates/trade-plans.ts';

const item = (plan: Plan, what: string) =>
  materials(plan, shippedFigures()).items.find((each) => each.what.startsWith(what));

const stuffed = (lots: readonly Lot[], construction: 'puffed_squares' | 'pieced' = 'puffed_squares'): Plan =>
  planFor({
    size: { width: 40.5, height: 49.5 },
    layout: { kind: 'edge to edge', rows: 11, columns: 9, finished: { width: 4.5, height: 4.5 } },
    construction,
    lots,
    spec: {},
    resewn: { joins: 0, by: 'hand' },
    joinLength: 4.5,
  });

// M. J. Cardwell, "How to make puff or biscuit quilts", thesprucecrafts.com/make-puff-or-biscuit-quilts-2821756: 6 in
// tops on 5 in bases, nine squares by eleven. myneedleworkcrafts.com/2015/03/biscuit-quilt-or-puff-coverlet.html has the
// same two sizes. With a quarter inch of seam a 5 in base finishes at 4 1/2 in.
describe('a stuffed square made new', () => {
  const plan = stuffed([
    [96, 'sound', 'A', 'keep'],
    [2, 'missing', 'A', 'replace'],
    [1, 'flattened', 'A', 'restuff'],
  ]);

  test('has a top of 6 in and a base of 5 in', () => {
    expect(item(plan, 'cloth to match A')?.note).toContain('cut 6 in x 6 in');
    expect(item(plan, 'plain cloth for the bases')?.note).toContain('2 cut 5 in x 5 in');
  });

  test('is filled, as are those that have gone flat', () => {
    expect(item(plan, 'filling')?.amount).toBe(3);
  });

  test('a flat square is only filled, and a plain patchwork square has neither base nor filling', () => {
    const flat = stuffed([
      [98, 'sound', 'A', 'keep'],
      [1, 'flattened', 'A', 'restuff'],
    ]);
    expect([item(flat, 'plain cloth for the bases'), item(flat, 'cloth to match')]).toEqual([
      undefined,
      undefined,
    ]);
    const plain = stuffed(
      [
        [98, 'sound', 'A', 'keep'],
        [1, 'lost', 'A', 'replace'],
      ],
      'pieced',
    );
    expect(item(plain, 'cloth to match A')?.note).toContain('cut 5 in x 5 in');
    expect([item(plain, 'plain cloth for the bases'), item(plain, 'filling')]).toEqual([
      undefined,
      undefined,
    ]);
  });
});
