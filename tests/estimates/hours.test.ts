import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { holes } from '../../src/estimates/holes/holes.ts';
import { hours, OPERATIONS } from '../../src/estimates/hours.ts';
import { materials } from '../../src/estimates/materials/materials.ts';
import { betaBinomial, type Circumstances, productPercentile } from '../../src/estimates/model.ts';
import { hoursEach, hoursFor } from '../../src/estimates/operations/operation.ts';
import type { Plan } from '../../src/plans/model.ts';
import { planFor as mappedPlan } from './holes/fixtures.ts';
import { comfort, type Lot, patchwork, planFor, shippedFigures, spread, squares } from './trade-plans.ts';

const figures = shippedFigures();
const named = (plan: Plan, name: string, circumstances: Circumstances = {}) =>
  hours(plan, figures, circumstances).operations.find(({ operation }) => operation === name);

const withLots = (lots: readonly Lot[], more: Partial<Parameters<typeof planFor>[0]> = {}): Plan =>
  planFor({
    size: { width: 80, height: 80 },
    layout: { kind: 'edge to edge', rows: 8, columns: 8, pieces_per_unit: 1 },
    lots,
    spec: {},
    resewn: { joins: 0, by: 'hand' },
    joinLength: 10,
    ...more,
  });

describe('hours of a figure', () => {
  test('come in hours for one of what is counted', () => {
    // The trade gives 7 min for 12 in of seam and 0.5 h for 100 in of line.
    expect(hoursEach(figures, 'hours.seam.hand').likely * 12).toBeCloseTo(7 / 60, 12);
    expect(hoursEach(figures, 'hours.line.machine').likely * 100).toBeCloseTo(0.5, 12);
    expect(hoursEach(figures, 'hours.seam.hand').high * 12).toBeCloseTo(12 / 60, 12);
  });

  test('add up as averages: the middle of what leans to the long side lies below its average', () => {
    // 5, 7 and 12 min average 0.3 × 5 + 0.4 × 7 + 0.3 × 12 = 7.9 min for 12 in; 360 in are 30 times that.
    // Swanson's mean: Hurst, Brown and Swanson, AAPG Bulletin 84 (2000), from memory.
    expect(hoursFor(figures, 'hours.seam.hand', 360).likely).toBeCloseTo((30 * 7.9) / 60, 12);
  });

  test('every figure of hours is in hours or minutes', () => {
    const leaves = (prefix: string): string[] =>
      figures.below(prefix).flatMap((name) => {
        const id = `${prefix}.${name}`;
        return figures.has(id) ? [id] : leaves(id);
      });
    const timed = leaves('hours').filter((id) => figures.figure(id).unit.includes(' per '));
    expect(timed.length).toBeGreaterThanOrEqual(25);
    for (const id of timed) expect(hoursEach(figures, id).likely).toBeGreaterThan(0);
  });

  test('another unit is refused', () => {
    expect(() => hoursEach(figures, 'materials.cloth.price')).toThrow(RangeError);
  });
});

describe('a bill of hours', () => {
  test.each([
    ['spread', spread],
    ['squares', squares],
    ['comfort', comfort],
    ['patchwork', patchwork],
  ])('%s: the likely column adds up, the outer ones are narrower than all at worst', (_, plan) => {
    const bill = hours(plan, figures);
    const sum = (side: 'low' | 'likely' | 'high') =>
      bill.operations.reduce((total, each) => total + each.hours[side], 0);
    expect(bill.likely).toBeCloseTo(sum('likely'), 9);
    expect(bill.low).toBeGreaterThan(sum('low'));
    expect(bill.high).toBeLessThan(sum('high'));
    expect(bill.low).toBeLessThan(bill.likely);
    expect(bill.likely).toBeLessThan(bill.high);
  });

  test('names each operation once', () => {
    expect(new Set(OPERATIONS.map(({ name }) => name)).size).toBe(OPERATIONS.length);
  });

  test('a quilt left as it is takes looking and reporting only', () => {
    const left = withLots([[64, 'sound', 'A', 'keep']], { spec: { treatment: 'leave' } });
    expect(hours(left, figures, { hung: true }).operations.map(({ operation }) => operation)).toEqual([
      'intake, photographs and survey',
      'report, packing and messages',
    ]);
  });

  test('leaving it is an assessment of 1.5 to 2 h, whatever its size', () => {
    // Common practice, no source.
    for (const side of [40, 80, 108]) {
      const left = withLots([[64, 'sound', 'A', 'keep']], {
        spec: { treatment: 'leave' },
        size: { width: side, height: side },
      });
      expect(hours(left, figures).likely).toBeGreaterThan(1.5);
      expect(hours(left, figures).likely).toBeLessThan(2);
    }
  });

  test('a small job is looked at, done and noted in well under three hours in all', () => {
    // One popped seam of 10 in on a sound quilt (common practice, no source). By hand: the ladder stitch takes 10 × 2.65
    // min = 0.44 h. Of a survey it takes 0.44 ÷ 8, so 1.25 h and 5.5 % of the 1.9 h more that a whole one averages.
    const popped = withLots([[64, 'sound', 'A', 'keep']], { resewn: { joins: 1, by: 'hand' } });
    const seam = (10 * (0.3 * 1.5 + 0.4 * 2.5 + 0.3 * 4)) / 60;
    const survey = 1.25 + (seam / 8) * (0.3 * 2 + 0.4 * 3 + 0.3 * 4.5 - 1.25);
    const report = (0.3 * 1.75 + 0.4 * 2.5 + 0.3 * 3.75) * (0.2 + (0.8 * seam) / 50);
    expect(hours(popped, figures).likely).toBeCloseTo(survey + seam + report, 9);
    expect(survey + seam + report).toBeLessThan(2.5);
  });

  test('a whole survey goes with the side of the quilt, up to half as much again as a bed quilt’s', () => {
    // 0.75 + 2.25 √(area ÷ bed quilt), times the average of 2, 3 and 4.5 h over its middle of 3 h
    const lean = (0.3 * 2 + 0.4 * 3 + 0.3 * 4.5) / 3;
    const survey = (side: number) =>
      named(
        withLots(
          [
            [24, 'sound', 'A', 'keep'],
            [40, 'lost', 'A', 'replace'],
          ],
          { size: { width: side, height: side } },
        ),
        'intake, photographs and survey',
      )?.hours.likely;
    expect(survey(40)).toBeCloseTo((0.75 + 2.25 * 0.5) * lean, 9);
    expect(survey(80)).toBeCloseTo(3 * lean, 9);
    expect(survey(400)).toBeCloseTo(4.5 * lean, 9);
  });

  test('a report goes with the work, up to 5 h', () => {
    const lean = (0.3 * 1.75 + 0.4 * 2.5 + 0.3 * 3.75) / 2.5;
    const report = (joinLength: number) => {
      const plan = withLots([[64, 'sound', 'A', 'keep']], { resewn: { joins: 8, by: 'hand' }, joinLength });
      const bill = hours(plan, figures);
      const paper = ['intake, photographs and survey', 'report, packing and messages'];
      const bench = bill.operations.filter(({ operation }) => !paper.includes(operation));
      return {
        told: bill.operations.at(-1)?.hours.likely,
        bench: bench.reduce((sum, each) => sum + each.hours.likely, 0),
      };
    };
    const small = report(10);
    expect(small.told).toBeCloseTo((0.5 + 0.04 * small.bench) * lean, 9);
    expect(report(5000).told).toBeCloseTo(5 * lean, 9);
  });

  test('one worker against another widens it, however many operations there are', () => {
    const steady = {
      ...figures,
      figure: (id: string) =>
        id === 'hours.worker' ? { ...figures.figure(id), spread: 0 } : figures.figure(id),
    };
    expect(hours(patchwork, steady).high).toBeLessThan(hours(patchwork, figures).high);
    expect(hours(patchwork, steady).low).toBeGreaterThan(hours(patchwork, figures).low);
  });
});

describe('what an operation counts', () => {
  test('a seam in a closed quilt is closed from the front, in an open one from inside', () => {
    const lots: Lot[] = [[64, 'sound', 'A', 'keep']];
    const closed = withLots(lots, { resewn: { joins: 12, by: 'hand' } });
    expect(named(closed, 'closing seams from the front')?.count).toBe(120);
    expect(named({ ...closed, opens: true }, 'resewing joins by hand')?.count).toBe(120);
    const topOnly = { found: { size: { width: 80, height: 80 }, backing: { kind: 'none' } } } as const;
    expect(named(closed, 'resewing joins by hand', topOnly)?.count).toBe(120);
    const byMachine = withLots(lots, { resewn: { joins: 12, by: 'machine' } });
    expect(named(byMachine, 'resewing joins by machine')?.count).toBe(120);
  });

  test('a larger patch takes longer in proportion to its edge', () => {
    const patch = (rows: number) =>
      named(
        withLots(
          [
            [rows * rows - 1, 'sound', 'A', 'keep'],
            [1, 'hole', 'A', 'patch_over'],
          ],
          { layout: { kind: 'edge to edge', rows, columns: rows } },
        ),
        'patching over',
      );
    // 0.6, 1 and 1.6 h average 1.06 h for a patch of 5 in.
    expect(patch(16)?.hours.likely).toBeCloseTo(1.06, 9);
    expect(patch(8)?.hours.likely).toBeCloseTo(2.12, 9);
    expect(patch(32)?.hours.likely).toBeCloseTo(1.06, 9);
  });

  test('an overlay takes longer by its area, but a small one no less than a small one takes', () => {
    const overlay = (rows: number) =>
      named(
        withLots(
          [
            [rows * rows - 2, 'sound', 'A', 'keep'],
            [2, 'worn', 'A', 'overlay'],
          ],
          { layout: { kind: 'edge to edge', rows, columns: rows } },
        ),
        'overlays',
      );
    expect(overlay(4)?.count).toBeCloseTo(8, 9);
    expect(overlay(8)?.count).toBeCloseTo(2, 9);
    expect(overlay(16)?.count).toBeCloseTo(2, 9);
  });

  test('a unit sewn down again adds one of its sides', () => {
    const plan = withLots([
      [60, 'sound', 'A', 'keep'],
      [4, 'edge', 'A', 'restitch'],
    ]);
    expect(named(plan, 'closing seams from the front')?.count).toBe(40);
  });

  test('hexagons are replaced by the rosette, motifs are moved, plain patches are patched', () => {
    const lots: Lot[] = [
      [1000, 'sound', 'A', 'keep'],
      [14, 'lost', 'A', 'replace'],
    ];
    const layout = { kind: 'survey grid', rows: 8, columns: 8 } as const;
    const hexagons = withLots(lots, { layout, patches: true, construction: 'hexagon' });
    expect(named(hexagons, 'replacing rosettes')?.count).toBe(2);
    expect(named(hexagons, 'fitting and setting in')).toBeUndefined();
    const crazy = withLots(lots, { layout, patches: true, construction: 'crazy' });
    expect(named(crazy, 'patching over')?.count).toBe(14);
    const motifs = withLots(lots, { construction: 'applique' });
    expect(named(motifs, 'moving motifs to new ground')?.count).toBe(14);
    // 14 of 1,014 squares as large together as the top, by their outline: worth 3.5 blocks of 10 in. Geometry.
    expect(named(motifs, 'fitting and setting in')?.count).toBeCloseTo((14 * Math.sqrt(6400 / 1014)) / 10, 2);
  });

  test('a pieced block takes longer than a plain one, and one of unknown pieces is in between', () => {
    const lots: Lot[] = [
      [63, 'sound', 'A', 'keep'],
      [1, 'lost', 'A', 'replace'],
    ];
    const make = (pieces: number | undefined) =>
      named(
        withLots(lots, {
          layout: { kind: 'edge to edge', rows: 8, columns: 8, ...(pieces && { pieces_per_unit: pieces }) },
        }),
        'making blocks',
      )?.hours;
    // The published block: about 48 pieces in 2.5 h, 1.5 to 4 h: 0.45 + 1 + 1.2 = 2.65 h on average (Swanson).
    expect(make(48)).toEqual({ low: 1.5, likely: 2.65, high: 4 });
    expect(make(1)?.likely).toBeCloseTo(0.06 + 0.16 + 0.3, 12);
    expect(make(undefined)?.likely).toBeCloseTo(0.06 + 0.16 + 0.75, 12);
    expect(make(undefined)?.low).toBeCloseTo(0.2, 12);
    expect(make(undefined)?.high).toBeCloseTo(2.5, 12);
  });

  test('old joining: none costs nothing, ties little, quilting by its closeness, unknown widens', () => {
    const name = 'taking out the old joining';
    const size = patchwork.quilt.size;
    const found = (joining: {
      kind: 'none' | 'ties' | 'lines';
      gap?: number;
      missing?: number;
    }): Circumstances => ({
      found: { size, joining, sewn: { piecing: 'hand' } },
    });
    expect(named(patchwork, name, found({ kind: 'none' }))).toBeUndefined();
    const ties = named(patchwork, name, found({ kind: 'ties', gap: 4 }));
    const wide = named(patchwork, name, found({ kind: 'lines', gap: 8 }));
    const close = named(patchwork, name, found({ kind: 'lines', gap: 4 }));
    const half = named(patchwork, name, found({ kind: 'lines', gap: 4, missing: 0.5 }));
    const unknown = named(patchwork, name);
    // 14 h as often as not for a hand-quilted bed quilt, about 20 h real (sewthisismyblog.blogspot.com 2016/09) within its
    // range of 8 to 25: 2.4 + 5.6 + 7.5 = 15.5 h on average (Swanson).
    expect(close?.hours).toEqual({ low: 8, likely: 15.5, high: 25 });
    expect(wide?.hours.likely).toBeCloseTo(7.75, 9);
    expect(half?.hours.likely).toBeCloseTo(7.75, 9);
    expect(ties?.hours.likely).toBeLessThan(4);
    expect(unknown?.hours.low).toBeLessThan(close?.hours.low ?? 0);
    expect(unknown?.hours.high).toBeGreaterThan(close?.hours.high ?? 0);
    expect(named(spread, name)).toBeUndefined();
  });

  test('hidden damage only where the quilt is opened: it may be none, and it may be a great deal', () => {
    const hidden = named(patchwork, 'patches found on opening');
    expect(hidden?.count).toBeCloseTo(86 * 0.02, 9);
    expect(hidden?.hours.low).toBe(0);
    expect(hidden?.hours.high).toBeGreaterThan(2 * (hidden?.hours.likely ?? 0));
    expect(named({ ...patchwork, opens: false }, 'patches found on opening')).toBeUndefined();
    // Somebody has looked inside: what was hidden is among what was found.
    expect(named(patchwork, 'patches found on opening', { opened: true })).toBeUndefined();
  });

  test('a fabric is searched for once a family', () => {
    const plan = withLots([
      [50, 'sound', 'A', 'keep'],
      [4, 'lost', 'A', 'replace'],
      [4, 'split', 'A', 'patch_over'],
      [6, 'lost', 'B', 'replace'],
    ]);
    expect(named(plan, 'finding fabrics to match')?.count).toBe(2);
  });
});

describe('a full backing', () => {
  test('carries weak units without a support for each, in hours and cloth as in holes', () => {
    const lots: Lot[] = [
      [60, 'sound', 'A', 'keep'],
      [4, 'worn', 'B', 'support'],
    ];
    const backed = withLots(lots, { spec: { backing: 'add' } });
    const muslin = (plan: Plan) =>
      materials(plan, figures).items.some(({ what }) => what.includes('supports'));
    expect(named(withLots(lots), 'supports')?.count).toBe(4);
    expect(muslin(withLots(lots))).toBe(true);
    expect(named(backed, 'supports')).toBeUndefined();
    expect(muslin(backed)).toBe(false);
  });
});

describe('damage side by side is one panel', () => {
  // Nobody unpicks the seams between neighbours that both come out; new ones are sewn together on the table and go in as
  // one piece (common practice, no source). 10 × 10 squares of 8 in.
  const steps = ['unpicking joins', 'fitting and setting in', 'joining new blocks by hand'] as const;
  const torn = (where: readonly string[], kind: 'edge to edge' | 'sashed' = 'edge to edge') => {
    const layout = { kind, rows: 10, columns: 10, finished: { width: 8, height: 8 }, sashing: 2 } as const;
    const side = kind === 'sashed' ? 98 : 80;
    const plan = mappedPlan(layout, { width: side, height: side }, [{ action: 'replace', where }]);
    return steps.map((step) => named(plan, step)?.count ?? 0);
  };

  test('14 squares in a corner are cut loose over 80 in, not over 448 in one by one', () => {
    // Rows of 6, 4, 3 and 1 from the corner: their edge steps down 4 and across 6, 10 sides of 8 in. Each square has two
    // seams a side of its own: (14 × 4 sides − 10 at the quilt's edge − 10 cut) ÷ 2 = 18 lie between two of them.
    const corner = ['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'B1', 'B2', 'B3', 'B4', 'C1', 'C2', 'C3', 'D1'];
    expect(torn(corner)).toEqual([80, 2, 144]);
  });

  test('14 squares apart are cut loose one by one', () => {
    const apart = ['B2', 'B4', 'B6', 'B8', 'D2', 'D4', 'D6', 'D8', 'F2', 'F4', 'F6', 'F8', 'H2', 'H4'];
    expect(torn(apart)).toEqual([448, 11.2, 0]);
  });

  test('strips part the blocks of a sashed quilt, so there each is by itself', () => {
    expect(torn(['B2', 'B3'], 'sashed')).toEqual([64, 1.6, 0]);
  });

  test('new seams between them pierce no old cloth', () => {
    const layout = {
      kind: 'edge to edge',
      rows: 10,
      columns: 10,
      finished: { width: 8, height: 8 },
    } as const;
    const made = (where: readonly string[]) =>
      holes(mappedPlan(layout, { width: 80, height: 80 }, [{ action: 'replace', where }]), figures)
        .newOldAllowance;
    // A pair is sewn to old cloth over 6 sides of 8 in, two apart over 8; 16 holes an inch, three in ten of them new.
    expect(made(['B2', 'B3'])).toBe(Math.round(6 * 8 * 16 * 0.3));
    expect(made(['B2', 'D4'])).toBe(Math.round(8 * 8 * 16 * 0.3));
  });
});

describe('beta-binomial', () => {
  test('with a flat prior every count is as likely as the next (Laplace; textbook)', () => {
    for (const chance of betaBinomial(10, 1, 1)) expect(chance).toBeCloseTo(1 / 11, 12);
  });

  test('has the mean and variance of the textbooks', () => {
    const [n, a, b] = [63, 0.5, 9.5];
    const chances = betaBinomial(n, a, b);
    const mean = chances.reduce((sum, chance, k) => sum + k * chance, 0);
    const square = chances.reduce((sum, chance, k) => sum + k * k * chance, 0);
    const p = a / (a + b);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
    expect(mean).toBeCloseTo(n * p, 9);
    expect(square - mean ** 2).toBeCloseTo((n * p * (1 - p) * (a + b + n)) / (a + b + 1), 9);
  });

  test('no trials, no successes; thousands do not overflow', () => {
    expect(betaBinomial(0, 1, 2)).toEqual([1]);
    const many = betaBinomial(5000, 0.1, 4.9);
    expect(many.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
  });

  test('percentiles of count times factor are those of all outcomes laid in order', () => {
    const factors = [
      { value: 0.6, chance: 0.3 },
      { value: 1, chance: 0.4 },
      { value: 1.6, chance: 0.3 },
    ];
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 80 }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        fc.double({ min: 0.05, max: 9, noNaN: true }),
        fc.constantFrom(0.1, 0.5, 0.9),
        (n, a, b, level) => {
          const counts = betaBinomial(n, a, b);
          const outcomes = counts
            .flatMap((chance, k) =>
              factors.map((factor) => ({ value: k * factor.value, chance: chance * factor.chance })),
            )
            .sort((x, y) => x.value - y.value);
          let sum = 0;
          const expected = outcomes.find(({ chance }) => {
            sum += chance;
            return sum >= level - 1e-12;
          })?.value;
          expect(productPercentile(counts, factors, level)).toBeCloseTo(expected ?? Number.NaN, 9);
        },
      ),
    );
  });

  test('a die, thrown once', () => {
    const die = [0, 1 / 6, 1 / 6, 1 / 6, 1 / 6, 1 / 6, 1 / 6];
    const once = [{ value: 1, chance: 1 }];
    expect([0.1, 0.5, 0.9].map((level) => productPercentile(die, once, level))).toEqual([1, 3, 6]);
  });
});

describe('old joining that is missing in part', () => {
  const kept = withLots([[64, 'sound', 'A', 'keep']]);
  const found = (kind: 'ties' | 'lines', gap: number): Circumstances => ({
    found: { size: { width: 80, height: 80 }, joining: { kind, gap, missing: 0.05 } },
  });

  test('is put back stitch by stitch: one twentieth of lines 4 in apart both ways on 80 x 80 in is 160 in', () => {
    // 2 × 6,400 ÷ 4 = 3,200 in of line, geometry; 1.3, 2 and 3 h for 100 in by hand average 2.09 h
    const lines = named(kept, 'putting back missing lines by hand', found('lines', 4));
    expect(lines?.count).toBeCloseTo(160, 9);
    expect(lines?.hours.likely).toBeCloseTo(1.6 * 2.09, 9);
  });

  test('is put back knot by knot: one twentieth of ties 4 in apart is 20', () => {
    expect(named(kept, 'putting back missing ties', found('ties', 4))?.count).toBeCloseTo(20, 9);
  });

  test('is left alone where the quilt is left, opened, or joined anew', () => {
    for (const change of [
      { treatment: 'leave' },
      { opens: true },
      { treatment: 'tie', joining: 'ties', pattern: 'every crossing' },
    ] as const)
      expect(
        named({ ...kept, ...change }, 'putting back missing lines by hand', found('lines', 4)),
      ).toBeUndefined();
  });
});

describe('layers that stay together', () => {
  const lined = { treatment: 'lines', joining: 'lines', pattern: 'every seam' } as const;

  test('are pinned before lines are sewn through them, which takes less than layering them anew', () => {
    const pinned = named(withLots([[64, 'sound', 'A', 'keep']], { spec: lined }), 'pinning the layers');
    const layered = named(
      withLots([[64, 'sound', 'A', 'keep']], { spec: { ...lined, backing: 'replace' }, opens: true }),
      'layering and basting',
    );
    expect(pinned?.count).toBe(1);
    expect(pinned?.hours.likely).toBeLessThan(layered?.hours.likely ?? 0);
  });

  test('are pinned or layered, never both, and neither where nothing joins them', () => {
    for (const opens of [true, false])
      for (const spec of [lined, {}]) {
        const plan = withLots([[64, 'sound', 'A', 'keep']], { spec, opens });
        const times = ['pinning the layers', 'layering and basting'].filter((name) => named(plan, name));
        expect(times.length).toBe('joining' in spec ? 1 : 0);
      }
  });
});
