import { describe, expect, it } from 'vitest';
import { holes, type Sewing, sewingOf } from '../../../src/estimates/holes/holes.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { exactly } from '../../findings/exactly.ts';
import { FIGURES, planFor, type Work, withFigures } from './fixtures.ts';

const blocks = { kind: 'edge to edge', rows: 4, columns: 4, finished: { width: 10, height: 10 } } as const;
const size = { width: 40, height: 40 };
const plan = (work: readonly Work[], spec: Parameters<typeof planFor>[3] = {}): Plan =>
  planFor(blocks, size, work, spec);
const only = (sewings: readonly Sewing[], operation: string): readonly Sewing[] =>
  sewings.filter((each) => each.operation === operation);
const TIED = { treatment: 'tie', joining: 'ties', pattern: 'every crossing' } as const;
const LINED = { treatment: 'lines', joining: 'lines', pattern: 'every seam' } as const;

// Common practice, no source; geometry throughout.
describe('ties', () => {
  it('at crossings lie in the seam allowances, in the centres in the face', () => {
    expect(holes(plan([], TIED), FIGURES)).toMatchObject({ newOldAllowance: 9 * 2, newOldFace: 0 });
    const centred = holes(plan([], { ...TIED, pattern: 'crossings and centres' }), FIGURES);
    expect(centred).toMatchObject({ newOldAllowance: 9 * 2, newOldFace: 16 * 2 });
  });

  it('pierce the old backing where it is kept, and only new cloth where it is replaced', () => {
    expect(holes(plan([], TIED), FIGURES)).toMatchObject({ newOldBacking: 18, newCloth: 0 });
    const replaced = sewingOf(plan([], { ...TIED, backing: 'replace' }), FIGURES);
    expect(only(replaced, 'ties')[0]?.punctures.filter(({ layer }) => layer === 'backing')).toEqual([]);
    expect(holes(plan([], { ...TIED, backing: 'replace' }), FIGURES).newOldBacking).toBe(0);
  });

  it('pierce both where a new backing is added over an old one', () => {
    const added = sewingOf(plan([], { ...TIED, backing: 'add' }), FIGURES, { oldBacking: true });
    const layers = only(added, 'ties')[0]
      ?.punctures.filter((each) => each.holes > 0)
      .map(({ layer }) => layer);
    expect(layers).toEqual(['allowance', 'backing', 'new cloth']);
  });

  it('re-enter old holes only where the quilt was tied', () => {
    expect(holes(plan([], TIED), FIGURES, { oldFastenings: { kind: 'lines', gap: 4 } }).reused).toBe(0);
    const tiedBefore = holes(plan([], TIED), FIGURES, { oldFastenings: { kind: 'ties', gap: 10 } });
    expect(tiedBefore.reused).toBe(Math.round(0.6 * 18 * 2)); // top and old backing
  });

  it('fall a quarter on each of the four units that meet, and not at all on a new one', () => {
    const tied = holes(plan([], TIED), FIGURES).byUnit;
    expect(tied).toBeUndefined(); // no map, no picture
    const mapped = holes(planFor(blocks, size, [], TIED, true), FIGURES).byUnit;
    // Inner blocks have four ties at their corners, those on an edge two; corner blocks half a hole each.
    expect(mapped).toMatchObject({ B2: 2, B3: 2, C2: 2, C3: 2, A2: 1, B1: 1, D3: 1, C4: 1 });
    expect(holes(plan([{ action: 'replace', where: ['B2'] }], TIED), FIGURES).byUnit?.B2).toBe(0);
  });
});

describe('lines', () => {
  it('land in the face of the low side, and leave a replaced unit free of old cloth', () => {
    const estimate = holes(
      plan([{ action: 'replace', where: ['B2'] }], { ...LINED, sewnBy: 'machine' }),
      withFigures({ 'stitching.basting.lines.pins': 0 }),
    );
    // 240 in of ditch; half of the 40 in round B2 falls into it.
    expect(estimate.newOldFace).toBe(Math.round((240 - 20) * (25.4 / 3)));
  });

  it('can be planned into the new cloth beside a seam', () => {
    const figures = withFigures({ 'stitching.basting.lines.pins': 0, 'stitching.new_side_of_the_ditch': 1 });
    const estimate = holes(
      plan([{ action: 'replace', where: ['B2'] }], { ...LINED, sewnBy: 'machine' }),
      figures,
    );
    expect(estimate.newOldFace).toBe(Math.round((240 - 40) * (25.4 / 3)));
  });

  it('are sewn by hand as the original was, where that was counted', () => {
    const context = { piecing: 'hand', originalStitchesPerInch: 6 } as const;
    const [lines] = only(sewingOf(plan([], LINED), FIGURES, context), 'lines of quilting');
    expect(lines?.punctures[0]?.holes).toBe(240 * 12);
    expect(lines?.assumptions[0]).toContain('6 stitches per inch');
  });
});

describe('patches sewn over', () => {
  it('keep their holes in the ditch: twice the stitches in the ground, once in the patch', () => {
    const [patch] = only(
      sewingOf(plan([{ action: 'patch_over', state: 'lost', where: ['B2'] }]), FIGURES),
      'patches sewn over',
    );
    expect(patch?.amount).toBe(40);
    expect(patch?.punctures).toMatchObject([
      { layer: 'allowance', holes: 40 * 22, reused: 0 },
      { layer: 'new cloth', holes: 40 * 11 },
    ]);
  });

  it('over a missing unit are sewn to its neighbours', () => {
    const { byUnit } = holes(plan([{ action: 'patch_over', state: 'missing', where: ['B2'] }]), FIGURES);
    expect(byUnit).toMatchObject({ B2: 0, A2: 220, B1: 220, B3: 220, C2: 220, C3: 0 });
  });
});

describe('units set in', () => {
  it('pierce the old neighbour once and the new unit once along each side', () => {
    const [set] = only(
      sewingOf(plan([{ action: 'replace', where: ['B2', 'B3'] }]), FIGURES),
      'new units set in',
    );
    // Six sides against old blocks, one between the two new ones.
    expect(set?.punctures).toMatchObject([
      { layer: 'allowance', holes: 60 * 16 },
      { layer: 'new cloth', holes: (60 + 20) * 16 },
    ]);
  });

  it('are not counted again among the joins that are resewn', () => {
    const all = plan([{ action: 'replace', where: ['B2'] }], { resewn: { joins: 24, by: 'hand' } });
    const [joins] = only(sewingOf(all, FIGURES), 'joins sewn again');
    expect(joins?.amount).toBe(200); // 24 joins of 10 in, four of them at the new block
  });
});

describe('joins that were listed as open', () => {
  it('put their holes on the two units they join', () => {
    const mapped = planFor(blocks, size, [], { resewn: { joins: 1, by: 'machine' } }, true);
    const openAt = [{ a: 'B2', b: 'B3', cause: 'thread' }] as const;
    const listed: Plan = { ...mapped, quilt: { ...mapped.quilt, joins: { ...mapped.quilt.joins, openAt } } };
    const { byUnit, newOldAllowance } = holes(listed, FIGURES);
    expect(newOldAllowance).toBe(Math.round(2 * 10 * 10.16));
    expect((byUnit?.B2 ?? 0) + (byUnit?.B3 ?? 0)).toBe(newOldAllowance);
  });
});

describe('sashed quilts', () => {
  it('keep their old strips: half of each ditch and every cornerstone stay old cloth whatever is replaced', () => {
    const sashed = {
      kind: 'sashed',
      rows: 2,
      columns: 2,
      finished: { width: 10, height: 10 },
      sashing: 2,
    } as const;
    const all = [{ action: 'replace', where: ['A1', 'A2', 'B1', 'B2'] }] as const;
    const lined = planFor(sashed, { width: 22, height: 22 }, all, { ...LINED, sewnBy: 'machine' });
    const [lines] = only(sewingOf(lined, FIGURES), 'lines of quilting');
    // Two lines of 22 in: 40 in beside blocks, of which half, and 4 in across the cornerstone.
    const inFace = (lines?.punctures ?? []).filter(({ layer }) => layer === 'face');
    expect(inFace.reduce((sum, each) => sum + each.holes, 0)).toBeCloseTo((20 + 4) * (25.4 / 3), 6);
    expect(
      holes(
        planFor(sashed, { width: 22, height: 22 }, all, { ...TIED, resewn: { joins: 0, by: 'hand' } }),
        FIGURES,
      ).newOldAllowance,
    ).toBe(
      Math.round(2 + 80 * 16 * 0.3), // one tie; four blocks set in, two inner sides of 10 in each, seven in ten through old holes
    );
  });
});

describe('an estimate', () => {
  it('carries the holes by unit into what is written down', () => {
    const estimate = holes(planFor(blocks, size, [], TIED, true), FIGURES);
    expect(JSON.parse(JSON.stringify(estimate)).byUnit.B2).toBe(2);
    expect({ ...estimate }.byUnit).toEqual(estimate.byUnit);
  });
});

describe('old work', () => {
  it('leaves inherited holes where it is taken out', () => {
    const opened = plan([], { ...TIED, backing: 'replace', opens: true });
    const context = { oldFastenings: { kind: 'ties', gap: 5 } } as const;
    const { inherited } = holes(opened, FIGURES, context);
    // 64 ties of two holes. The old binding comes off too: 160 in of edge at 16 holes, seven in ten sewn through again.
    expect(inherited).toBe((1600 / 25) * 2 + Math.round(160 * 16 * 0.3));
    expect(holes(plan([], TIED), FIGURES, context).inherited).toBe(0);
  });

  it('is put back through its own holes where only part of it is missing', () => {
    const { newOldFace, newOldBacking, reused } = holes(plan([]), FIGURES, {
      oldFastenings: { kind: 'ties', gap: 5, restored: 0.125 },
    });
    expect([newOldFace, newOldBacking, reused]).toEqual([0, 0, 2 * 16]);
  });
});

describe('edges', () => {
  it('are bound anew with a new backing, in the allowance the binding hides', () => {
    const [binding] = only(
      sewingOf(plan([], { backing: 'replace', sewnBy: 'machine' }), FIGURES),
      'a new binding',
    );
    expect(binding?.amount).toBe(160);
    expect(binding?.punctures[0]).toMatchObject({ layer: 'allowance', holes: 160 * 10.16, reused: 0 });
  });

  it('carry a sleeve sewn to the back and never to the top', () => {
    const { newOldFace, newOldAllowance, newOldBacking } = holes(plan([]), FIGURES, { sleeve: true });
    expect([newOldFace, newOldAllowance]).toEqual([0, 0]);
    expect(newOldBacking).toBe(2 * 38.5 * 9);
  });

  it('carry no sleeve where the quilt is left as it is', () => {
    const left = holes(plan([], { treatment: 'leave' }), FIGURES, { sleeve: true });
    expect(left.newOldBacking + left.newOldFace + left.newOldAllowance + left.newCloth).toBe(0);
  });
});

describe('basting', () => {
  it('is pinned in the seams for lines and clipped for ties', () => {
    const pinned = only(sewingOf(plan([], LINED), FIGURES), 'basting with pins');
    expect(pinned[0]?.punctures[0]).toMatchObject({ layer: 'allowance', holes: 11 * 11 * 2 });
    expect(only(sewingOf(plan([], TIED), FIGURES), 'basting with pins')).toEqual([]);
  });
});

describe('quilts counted in patches', () => {
  it('take joins and outlines from the number and size of the patches, and say so', () => {
    const grid = planFor({ kind: 'survey grid', rows: 4, columns: 4 }, size, []);
    const hexagons: Plan = {
      ...grid,
      quilt: {
        ...grid.quilt,
        counting: 'patches',
        total: 1000,
        joins: { ...grid.quilt.joins, total: 2900, length: 0.9 },
      },
      actions: [
        {
          action: 'patch_over',
          rules: [],
          group: { state: 'lost', family: undefined, count: 100, ...exactly(0.1) },
        },
        {
          action: 'keep',
          rules: [],
          group: { state: 'sound', family: undefined, count: 900, ...exactly(0.9) },
        },
      ],
      resewn: { joins: 50, by: 'hand' },
    };
    const sewings = sewingOf(hexagons, FIGURES);
    expect(only(sewings, 'joins sewn again')[0]?.amount).toBe(45);
    expect(only(sewings, 'patches sewn over')[0]?.amount).toBeCloseTo(100 * 5.8 * 0.9, 6); // nearly six sides each
    const estimate = holes(hexagons, FIGURES);
    expect(estimate.byUnit).toBeUndefined();
    expect(estimate.assumptions.some((each) => each.includes('patches'))).toBe(true);
  });
});

describe('missing settings', () => {
  it('are named', () => {
    const missing = {
      ...FIGURES,
      number: (id: string) => FIGURES.number(id === 'stitching.tie' ? 'stitching.knot' : id),
      range: FIGURES.range,
      figure: FIGURES.figure,
      has: FIGURES.has,
      below: FIGURES.below,
    };
    expect(() => holes(plan([], TIED), missing)).toThrow(/stitching\.knot/);
  });
});

describe('fragile cloth under a full backing', () => {
  // Common practice, no source: one support under all, held at the edge and in sound units.
  const supported = (spec: Parameters<typeof planFor>[3], state: 'lost' | 'missing' = 'lost') =>
    sewingOf(plan([{ action: 'support', state, where: ['B2', 'B3'] }], spec), FIGURES).filter(
      ({ operation }) => operation === 'supports under units',
    );

  it('gets no support of its own sewn round each unit as well', () => {
    // Two units of 40 in round at 8 holes an inch are 640 holes in the cloth to be spared.
    expect(supported({})[0]?.amount).toBe(80);
    expect(supported({ backing: 'add' })).toEqual([]);
    expect(supported({ backing: 'replace', opens: true })).toEqual([]);
  });

  it('keeps the support that closes the gap of a missing unit', () => {
    expect(supported({ backing: 'add' }, 'missing')[0]?.amount).toBe(80);
  });
});
