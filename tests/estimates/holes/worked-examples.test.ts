import { describe, expect, it } from 'vitest';
import { holes, type Sewing, sewingOf } from '../../../src/estimates/holes/holes.ts';
import { FIGURES, planFor, withFigures } from './fixtures.ts';

// Five worked examples of the trade brief, §10: common practice, no source; geometry.

const named = (sewings: readonly Sewing[], operation: string): Sewing => {
  const found = sewings.find((each) => each.operation === operation);
  if (found === undefined) throw new Error(`no ${operation} in this plan`);
  return found;
};
const inTop = ({ punctures }: Sewing, layers: readonly string[] = ['face', 'allowance']): number =>
  punctures.filter(({ layer }) => layers.includes(layer)).reduce((sum, each) => sum + each.holes, 0);

describe('a spread of 64 nine-patches put back together', () => {
  const spread = { kind: 'edge to edge', rows: 8, columns: 8, finished: { width: 9, height: 9 } } as const;
  const resewnBy = (by: 'hand' | 'machine') =>
    planFor(spread, { width: 72, height: 72 }, [], { resewn: { joins: 40, by }, sewnBy: by });
  const context = { piecing: 'hand', originalStitchesPerInch: 8 } as const;

  it('pierces 360 in × 16 × 2 cloths = 11,520 times by hand from inside, seven in ten through old holes', () => {
    const inside = { ...context, oldBacking: false };
    const joins = named(sewingOf(resewnBy('hand'), FIGURES, inside), 'joins sewn again');
    expect(joins.amount).toBe(360);
    expect(inTop(joins)).toBe(11520);
    const estimate = holes(resewnBy('hand'), FIGURES, inside);
    expect(estimate.newOldAllowance).toBe(3456); // "≈ 3,460"
    expect(estimate.reused).toBe(11520 - 3456);
  });

  it('pierces 360 in × 8 × 2 folds = 5,760 times where it stays closed, as the ladder stitch that is priced does', () => {
    const estimate = holes(resewnBy('hand'), FIGURES, context);
    expect(estimate.newOldAllowance).toBe(1728);
    expect(estimate.reused).toBe(5760 - 1728);
    expect([estimate.newOldFace, estimate.newOldBacking, estimate.newCloth]).toEqual([0, 0, 0]);
  });

  it('takes about 7,315 holes by machine, all of them new', () => {
    const estimate = holes(resewnBy('machine'), FIGURES, context);
    expect(estimate.newOldAllowance).toBe(7315);
    expect(estimate.reused).toBe(0);
    // The old holes are there all the same, and weaken the same line.
    expect(estimate.inherited).toBe(11520);
  });
});

describe('a hanging of 63 squares given a support and a new backing', () => {
  const squares = { kind: 'edge to edge', rows: 9, columns: 7, finished: { width: 10, height: 10 } } as const;
  const size = { width: 70, height: 90 };
  const work = [
    { action: 'replace', state: 'lost', count: 8 },
    { action: 'overlay', state: 'worn', count: 6 },
  ] as const;

  it('is held by 48 tacks of two holes: 96', () => {
    const plan = planFor(squares, size, work, {
      treatment: 'backing',
      joining: 'tacks',
      pattern: 'every crossing',
      backing: 'replace',
    });
    const tacks = named(sewingOf(plan, FIGURES), 'tacks');
    expect(tacks.amount).toBe(48);
    const overlaid = 6 / 63; // net and old cloth are both pierced there
    const top = tacks.punctures.slice(0, 2).reduce((sum, each) => sum + each.holes, 0);
    expect(top).toBeCloseTo(96 * (1 + overlaid), 6);
    expect(inTop(tacks)).toBeCloseTo((96 * 55) / 63, 6);
  });

  it('takes six overlays of 40 in at ten holes per inch: 2,400', () => {
    const plan = planFor(squares, size, work);
    const overlays = named(sewingOf(plan, FIGURES), 'overlays');
    expect(overlays.amount).toBe(240);
    expect(inTop(overlays)).toBe(2400);
  });

  it('would take 1,100 in of ditch lines × 10.16 = 11,176 instead, about 9,757 of them in original cloth', () => {
    const plan = planFor(squares, size, [work[0]], {
      treatment: 'lines',
      joining: 'lines',
      pattern: 'every seam',
      sewnBy: 'machine',
    });
    const lines = named(sewingOf(plan, withFigures({ 'stitching.machine_lines': 2.5 })), 'lines of quilting');
    expect(lines.amount).toBe(1100);
    expect(Math.round(inTop(lines, ['face', 'new cloth']))).toBe(11176);
    expect(Math.round(inTop(lines))).toBe(9757);
  });
});

describe('a wool comforter of 192 squares tied again', () => {
  const squares = { kind: 'edge to edge', rows: 16, columns: 12, finished: { width: 5, height: 5 } } as const;
  const plan = planFor(squares, { width: 60, height: 80 }, [{ action: 'replace', state: 'lost', count: 7 }], {
    treatment: 'tie',
    joining: 'ties',
    pattern: 'every crossing',
  });

  it('takes 165 ties and 330 holes in the top, six in ten of the old ones re-entered: about 130 new', () => {
    const ties = named(sewingOf(plan, FIGURES, { oldFastenings: { kind: 'ties', gap: 5 } }), 'ties');
    expect(ties.amount).toBe(165);
    expect(inTop({ ...ties, punctures: ties.punctures.slice(0, 2) }, ['allowance', 'new cloth'])).toBeCloseTo(
      330,
      6,
    );
    const fresh = ties.punctures
      .filter(({ layer }) => layer === 'allowance')
      .map((each) => each.holes - each.reused);
    expect(Math.round(fresh.reduce((sum, each) => sum + each, 0) / 10) * 10).toBe(130);
  });

  it('would take 1,780 in of lines and about 15,070 holes instead', () => {
    const lined = {
      ...plan,
      treatment: 'lines',
      joining: 'lines',
      pattern: 'every seam',
      sewnBy: 'machine',
    } as const;
    const lines = named(sewingOf(lined, FIGURES), 'lines of quilting');
    expect(lines.amount).toBe(1780);
    expect(
      Math.round(inTop({ ...lines, punctures: lines.punctures.slice(0, 2) }, ['face', 'new cloth']) / 10) *
        10,
    ).toBe(15070);
  });
});

describe('a bed quilt of 100 squares quilted in lines', () => {
  const squares = { kind: 'edge to edge', rows: 10, columns: 10, finished: { width: 8, height: 8 } } as const;
  const size = { width: 80, height: 80 };
  const lined = { treatment: 'lines', joining: 'lines', pattern: 'every seam', sewnBy: 'machine' } as const;

  it('takes 18 lines of 80 in at 3.0 mm: 12,192 holes, about 10,485 in original cloth, a quarter of each line', () => {
    const plan = planFor(squares, size, [{ action: 'replace', state: 'lost', count: 14 }], lined);
    const lines = named(sewingOf(plan, FIGURES), 'lines of quilting');
    expect(lines.amount).toBe(1440);
    const inTheTop = lines.punctures.slice(0, 2).reduce((sum, each) => sum + each.holes, 0);
    expect(Math.round(inTheTop)).toBe(12192);
    expect(Math.round(inTop(lines))).toBe(10485);
    expect(lines.perforation).toBeCloseTo(0.25, 6);
  });

  it('takes 162 holes with ties at the 81 corners', () => {
    const plan = planFor(squares, size, [], { treatment: 'tie', joining: 'ties', pattern: 'every crossing' });
    const ties = named(sewingOf(plan, FIGURES), 'ties');
    expect([ties.amount, inTop(ties)]).toEqual([81, 162]);
  });
});
