import { describe, expect, it } from 'vitest';
import { sewingOf } from '../../src/estimates/holes/holes.ts';
import { hours } from '../../src/estimates/hours.ts';
import { materials } from '../../src/estimates/materials/materials.ts';
import type { PlanSpec } from '../../src/plans/model.ts';
import { planFor } from './holes/fixtures.ts';
import { shippedFigures } from './trade-plans.ts';

const figures = shippedFigures();
const blocks = { kind: 'edge to edge', rows: 4, columns: 4, finished: { width: 10, height: 10 } } as const;
const plan = (spec: Partial<PlanSpec> & { readonly opens?: boolean }) =>
  planFor(blocks, { width: 40, height: 40 }, [], spec);

/** Whether each of the estimates has a binding in it. */
const bound = (spec: Parameters<typeof plan>[0]) => ({
  holes: sewingOf(plan(spec), figures).some(({ operation }) => operation === 'a new binding'),
  hours: hours(plan(spec), figures).operations.some(({ operation }) =>
    operation.includes('finishing the binding'),
  ),
  cloth: materials(plan(spec), figures).items.some(({ what }) => what === 'binding'),
});

// Common practice, no source: layers are not parted without taking the binding off, and a new back has a raw edge.
describe('whether the edge is bound anew', () => {
  it.each([
    ['opened for its filling, its back kept', { opens: true, batting: 'replace' }, true],
    ['a back put on', { backing: 'add' }, true],
    ['a back renewed', { backing: 'replace', opens: true }, true],
    ['left closed', {}, false],
    ['a top without a back', { backing: 'none' }, false],
  ] as const)('is one answer for holes, hours and cloth: %s', (_, spec, answer) => {
    expect(bound(spec)).toEqual({ holes: answer, hours: answer, cloth: answer });
  });

  it('is sewn on by hand or by machine as the quilt is, in holes and hours alike', () => {
    const opened = { opens: true, batting: 'replace' } as const;
    const front = (sewnBy: 'hand' | 'machine') => {
      const sewn = plan({ ...opened, sewnBy });
      const top = sewingOf(sewn, figures).find(({ operation }) => operation === 'a new binding')
        ?.punctures[0];
      return {
        holes: top?.holes,
        hours: hours(sewn, figures).operations.find(
          ({ operation }) => operation === 'attaching the binding by hand',
        )?.count,
      };
    };
    // 160 in round: 16 holes an inch by hand, 25.4 ÷ 2.5 by machine; machine attachment is in the time for making it.
    expect(front('hand')).toEqual({ holes: 160 * 16, hours: 160 });
    expect(front('machine')).toEqual({ holes: (160 * 25.4) / 2.5, hours: undefined });
  });
});
