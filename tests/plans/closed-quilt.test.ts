import { describe, expect, it } from 'vitest';
import type { Quilt } from '../../src/casebook/model.ts';
import { candidatePlans } from '../../src/plans/candidates.ts';
import { shippedFigures, spread } from '../estimates/trade-plans.ts';

const figures = shippedFigures();
const plansFor = (found: Pick<Quilt, 'backing' | 'batting'>) =>
  candidatePlans(
    { ...spread.quilt, joins: { ...spread.quilt.joins, inspected: 112, open: 19 } },
    { size: spread.quilt.size, ...found },
    spread.actions,
    figures,
  );
const BED: Pick<Quilt, 'backing' | 'batting'> = { backing: { kind: 'own' }, batting: { kind: 'bonded' } };

// A popped seam in a quilt that stays closed is closed from the front by hand: common practice, no source.
describe('seams of a quilt that stays closed', () => {
  it('are resewn by hand even where lines are sewn by machine', () => {
    const closed = plansFor(BED).filter(({ opens }) => !opens);
    expect(closed.some(({ sewnBy }) => sewnBy === 'machine')).toBe(true);
    for (const { resewn } of closed) expect(resewn.by).toBe('hand');
  });

  it('leave a machine nothing to do without lines, so that plan is not offered', () => {
    for (const { opens, sewnBy, joining } of plansFor(BED))
      if (!opens && sewnBy === 'machine') expect(joining).toBe('lines');
  });

  it('are in reach of a machine once backing or batting come off, or where there is no backing', () => {
    const opened = plansFor(BED).filter(({ opens, sewnBy }) => opens && sewnBy === 'machine');
    expect(opened.length).toBeGreaterThan(0);
    for (const { resewn } of opened) expect(resewn.by).toBe('machine');
    const top = plansFor({ backing: { kind: 'none' }, batting: { kind: 'none' } });
    expect(top.some(({ treatment, resewn }) => treatment === 'reassemble' && resewn.by === 'machine')).toBe(
      true,
    );
  });
});
