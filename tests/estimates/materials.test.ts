import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Cutting,
  cornerCut,
  halfSquareCut,
  quarterSquareCut,
  settingCut,
  squareCut,
  stripsFor,
  yardsToBuy,
} from '../../src/estimates/materials/cut-size.ts';
import {
  backingPanels,
  bindingCut,
  cheapestBacking,
  sleeveCut,
} from '../../src/estimates/materials/layers.ts';
import { materials } from '../../src/estimates/materials/materials.ts';
import type { Plan } from '../../src/plans/model.ts';
import { comfort, type Lot, patchwork, planFor, shippedFigures, spread, squares } from './trade-plans.ts';

const figures = shippedFigures();
const item = (plan: Plan, what: string, ...rest: [Parameters<typeof materials>[2]?]) =>
  materials(plan, figures, ...rest).items.find((each) => each.what.startsWith(what));

const side = fc.double({ min: 0.5, max: 39, noNaN: true });
const pieces = fc.integer({ min: 1, max: 500 });

describe('cutting', () => {
  test('is never short: each shape holds its seam allowances, on an eighth', () => {
    const cutting: Cutting = { allowance: 0.25, step: 0.125 };
    // What geometry asks for: a sharp corner spends √2 times the allowance.
    const needs = [
      [squareCut, (s: number) => s + 0.5],
      [halfSquareCut, (s: number) => s + 0.25 * (2 + Math.SQRT2)],
      [quarterSquareCut, (s: number) => s + 0.5 * (1 + Math.SQRT2)],
      [settingCut, (s: number) => s * Math.SQRT2 + 0.5 * (1 + Math.SQRT2)],
      [cornerCut, (s: number) => s / Math.SQRT2 + 0.25 * (2 + Math.SQRT2)],
    ] as const;
    fc.assert(
      fc.property(side, fc.constantFrom(...needs), (finished, [cut, need]) => {
        const size = cut(finished, cutting);
        expect(size).toBeGreaterThanOrEqual(need(finished) - 1e-9);
        expect(size).toBeLessThan(need(finished) + 0.125 + 0.05);
        expect(size * 8).toBeCloseTo(Math.round(size * 8), 9);
      }),
    );
  });

  test('strips hold all pieces, with less than a strip over', () => {
    fc.assert(
      fc.property(pieces, side, side, (n, width, height) => {
        const strips = stripsFor(n, { width, height }, 40);
        if (strips === undefined) throw new Error('every piece fits a bolt here');
        expect(strips.strips * strips.piecesEach).toBeGreaterThanOrEqual(n);
        expect((strips.strips - 1) * strips.piecesEach).toBeLessThan(n);
        expect(strips.length).toBeLessThanOrEqual(
          Math.min(
            Math.ceil(n / Math.floor(40 / width + 1e-9)) * height,
            Math.ceil(n / Math.floor(40 / height + 1e-9)) * width,
          ) + 1e-9,
        );
      }),
    );
  });

  test('a piece wider than the bolt both ways has no strips; a long one is turned', () => {
    expect(stripsFor(1, { width: 41, height: 41 }, 40)).toBeUndefined();
    expect(stripsFor(2, { width: 50, height: 6 }, 40)).toEqual({ piecesEach: 6, strips: 1, length: 50 });
  });

  test('cloth bought is never less than needed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 900, noNaN: true }), (inches) => {
        expect(yardsToBuy(inches, 0.08, 0.125) * 36).toBeGreaterThanOrEqual(inches * 1.08 - 1e-6);
      }),
    );
  });
});

describe('backing', () => {
  const price = (each: number) => ({ low: each, likely: each, high: each });
  const size = fc.integer({ min: 20, max: 130 });

  test('panels cover the top and the extra, whichever way they run', () => {
    fc.assert(
      fc.property(size, size, (width, height) => {
        for (const plan of backingPanels(width, height, 4, { name: 'bolt', width: 41, price: price(10) })) {
          const [over, along] = plan.run === 'down' ? [width, height] : [height, width];
          expect(plan.panels * 41).toBeGreaterThanOrEqual(over + 8);
          expect((plan.panels - 1) * 41).toBeLessThan(over + 8);
          expect(plan.panelLength).toBe(along + 8);
        }
      }),
    );
  });

  test('the cheapest is no dearer than any other', () => {
    const cloths = [
      { name: 'bolt', width: 41, price: price(10) },
      { name: 'wide', width: 106, price: price(24) },
    ];
    fc.assert(
      fc.property(size, size, (width, height) => {
        const best = cheapestBacking(width, height, 4, cloths);
        const all = cloths.flatMap((cloth) => backingPanels(width, height, 4, cloth));
        expect(best?.cost.likely).toBe(Math.min(...all.map(({ cost }) => cost.likely)));
      }),
    );
  });

  test('a quilt 60 x 100 takes panels across, because down would waste half a panel more', () => {
    const cloth = { name: 'bolt', width: 41, price: price(10) };
    const [down, across] = backingPanels(60, 100, 4, cloth);
    expect([down?.panels, down?.length]).toEqual([2, 216]);
    expect([across?.panels, across?.length]).toEqual([3, 204]);
    expect(cheapestBacking(60, 100, 4, [cloth])?.run).toBe('across');
  });
});

test('binding strips go all the way round; a sleeve is shorter than the quilt', () => {
  fc.assert(
    fc.property(side, side, (width, height) => {
      const cut = bindingCut(width, height, { allowance: 12, usable: 40, strip: 2.5 });
      expect(cut.strips * 40).toBeGreaterThanOrEqual(2 * (width + height) + 12 - 1e-6);
    }),
  );
  expect(sleeveCut(70, { shorter: 1, usable: 40, strip: 9 })).toEqual({ length: 69, strips: 2, cloth: 18 });
});

describe('what a plan takes', () => {
  test('a quilt put back together needs thread, and cloth for what is supported', () => {
    expect(materials(spread, figures).items.map(({ what }) => what)).toEqual([
      'thin muslin for supports',
      'sewing thread, no stronger than the cloth',
    ]);
  });

  test('a quilt left as it is needs nothing', () => {
    const plan = planFor({
      size: { width: 60, height: 60 },
      layout: { kind: 'edge to edge', rows: 6, columns: 6 },
      lots: [[36, 'sound', 'A', 'keep']],
      spec: { treatment: 'leave' },
      resewn: { joins: 0, by: 'hand' },
      joinLength: 10,
    });
    expect(materials(plan, figures, { hung: true }).items).toEqual([]);
  });

  test('squares put in: seven and a spare, cut half an inch larger, by family', () => {
    expect(item(comfort, 'cloth to match A')).toMatchObject({ amount: 0.375, unit: 'yd' });
    expect(item(comfort, 'cloth to match A')?.note).toContain(
      '8 rectangles (1 spare), 8 cut 5 1/2 in x 5 1/2 in',
    );
  });

  test('two families are bought apart', () => {
    const plan = planFor({
      size: { width: 40, height: 40 },
      layout: { kind: 'edge to edge', rows: 4, columns: 4, pieces_per_unit: 1 },
      lots: [
        [10, 'sound', 'A', 'keep'],
        [4, 'lost', 'B', 'replace'],
        [2, 'split', 'A', 'patch_over'],
      ],
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 10,
    });
    expect(
      materials(plan, figures)
        .items.map(({ what }) => what)
        .slice(0, 2),
    ).toEqual(['cloth to match A, family A', 'cloth to match B, family B']);
  });

  test('patches whose size nobody measured: the area bounds the yardage, a note says why, no cut size is guessed', () => {
    const plan = planFor({
      size: { width: 80, height: 80 },
      layout: { kind: 'survey grid', rows: 8, columns: 8 },
      patches: true,
      construction: 'hexagon',
      lots: [
        [1900, 'sound', 'A', 'keep'],
        [100, 'lost', 'A', 'replace'],
      ],
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 1,
    });
    const cloth = item(plan, 'cloth to match A');
    // 100 of 2,000 patches of 6,400 in² are 320 in²: 8 in off a bolt 40 in wide, with 8 % over 0.24 yd.
    expect(cloth?.amount).toBe(0.25);
    expect(cloth?.note).toContain('sizes are not on record');
    // what is bought is paid for, even where less would do
    expect(cloth?.cost.low).toBeGreaterThanOrEqual(0.25 * figures.range('materials.cloth.price').low);
    expect(cloth?.note).not.toContain(' cut ');
    expect((cloth?.cost.high ?? 0) / (cloth?.cost.low ?? 1)).toBeGreaterThan(5);
  });

  test('a pieced block is not one piece of cloth, so its pieces are not on record', () => {
    const pieced = planFor({
      size: { width: 36, height: 36 },
      layout: { kind: 'edge to edge', rows: 4, columns: 4, pieces_per_unit: 9 },
      lots: [
        [15, 'sound', 'A', 'keep'],
        [1, 'lost', 'A', 'replace'],
      ],
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 9,
    });
    expect(item(pieced, 'cloth to match A')?.note).toContain('sizes are not on record');
  });

  test('on point, the side of the block and not its diagonal is cut', () => {
    const plan = planFor({
      size: { width: 51, height: 51 },
      layout: { kind: 'on point', rows: 3, columns: 3, finished: { width: 12, height: 12 } },
      lots: [
        [12, 'sound', 'A', 'keep'],
        [1, 'lost', 'A', 'replace'],
      ],
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 12,
    });
    expect(item(plan, 'cloth to match A')?.note).toContain('cut 12 1/2 in x 12 1/2 in');
  });

  test('side triangles come four from a square, cut across twice', () => {
    const plan = planFor({
      size: { width: 51, height: 51 },
      layout: { kind: 'on point', rows: 3, columns: 3, finished: { width: 10, height: 10 } },
      lots: [
        [12, 'sound', 'A', 'keep'],
        [1, 'lost', 'A', 'replace'],
      ],
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 10,
    });
    const half = plan.quilt.piecework.units.find(({ part }) => part === 'half')?.at ?? '';
    const actions = plan.actions.map((each) =>
      each.action === 'replace' ? { ...each, group: { ...each.group, where: [half] } } : each,
    );
    expect(item({ ...plan, actions }, 'cloth to match A')?.note).toContain(
      '2 side triangles (1 spare), 1 cut 15 1/2 in x 15 1/2 in, cut across twice',
    );
  });

  test('a quilt opened gets a binding all round, batting of a size sold, and thread for its lines', () => {
    expect(item(patchwork, 'batting')?.note).toBe('queen size, 90 in x 108 in; needed 88 in x 88 in');
    expect(item(patchwork, 'binding')?.note).toBe('9 strips 2 1/2 in wide, for 340 in');
    expect(item(patchwork, 'pearl')).toBeUndefined();
    expect(item(spread, 'binding')).toBeUndefined();
  });

  test('a sleeve only where it hangs', () => {
    expect(item(squares, 'hanging sleeve', { hung: true })?.note).toBe('2 strips 9 in wide, for 69 in');
    expect(item(squares, 'hanging sleeve')).toBeUndefined();
  });

  test('ties take pearl cotton, tacks do not', () => {
    expect(item(comfort, 'pearl')?.note).toBe('165 ties, about 42 yd');
    expect(item(squares, 'pearl')).toBeUndefined();
  });

  test('thread for seams and round each unit is 1.3 times their length, with 15 % over', () => {
    // 40 joins of 9 in and three supports 9 in square, by hand: (360 + 108) × 1.3 × 1.15 ÷ 36 = 19.4 yd
    expect(item(spread, 'sewing thread')?.note).toBe('about 20 yd');
    const closed = {
      ...spread,
      resewn: { joins: 0, by: 'hand' },
      actions: spread.actions.slice(0, 1),
    } as const;
    expect(item(closed, 'sewing thread')).toBeUndefined();
  });

  test('thread for machine lines follows from stitch length and thickness', () => {
    const lots = [[100, 'sound', 'A', 'keep']] as const;
    const plan = planFor({
      size: { width: 80, height: 80 },
      layout: { kind: 'edge to edge', rows: 10, columns: 10 },
      lots,
      spec: { treatment: 'lines', joining: 'lines', pattern: 'every seam', sewnBy: 'machine' },
      resewn: { joins: 0, by: 'machine' },
      joinLength: 8,
    });
    // 1,440 in × (2 + 2 × 0.12 in × 25.4/3 stitches an inch) × 1.15 ÷ 36 = 185.5 yd
    expect(item(plan, 'sewing thread')?.note).toBe('about 186 yd');
    expect(item({ ...plan, sewnBy: 'hand' }, 'sewing thread')?.note).toBe('about 60 yd');
  });

  test('batting is priced by the square yard of the size bought', () => {
    const price = figures.range('materials.batting.price.cotton');
    // 72 x 90 in are 5 square yards.
    expect(item(comfort, 'batting')?.cost.likely).toBeCloseTo(5 * price.likely, 9);
    expect(item(comfort, 'batting')?.cost.high).toBeCloseTo(5 * price.high, 9);
  });

  test('a batting without a price of its own, and a quilt larger than any size', () => {
    const vast = { ...patchwork.quilt, size: { width: 130, height: 130 } };
    const other = item({ ...patchwork, quilt: vast, newBatting: 'bamboo' }, 'batting, bamboo');
    expect(other?.note).toContain('larger than any size sold');
    expect(other?.cost.likely).toBeCloseTo(
      (figures.number('materials.batting.price.other') * 138 * 138) / 1296,
      9,
    );
  });

  test('a new backing is costed both ways and in each cloth', () => {
    expect(item(squares, 'backing')?.note).toBe(
      'one panel of 78 in, running across, from cloth 106 in wide. Wash it first.',
    );
  });

  test('in metric, cut sizes are still never short', () => {
    expect(item(comfort, 'cloth to match A', { system: 'metric' })?.note).toContain('14 cm x 14 cm');
  });

  test('more units replaced never cost less', () => {
    const costOf = (lost: number): number =>
      materials(
        planFor({
          size: { width: 80, height: 80 },
          layout: { kind: 'edge to edge', rows: 10, columns: 10, pieces_per_unit: 1 },
          lots: [
            [100 - lost, 'sound', 'A', 'keep'],
            [lost, 'lost', 'A', 'replace'],
          ],
          spec: {},
          resewn: { joins: 0, by: 'hand' },
          joinLength: 8,
        }),
        figures,
      ).items.reduce((sum, { cost }) => sum + cost.likely, 0);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 98 }), (lost) => {
        expect(costOf(lost + 1)).toBeGreaterThanOrEqual(costOf(lost) - 1e-9);
      }),
    );
  });
});

test('lines put back by hand take thread: 1.3 of their length', () => {
  // the trade's ratio for hand running stitch, medium confidence; 2 × 6,400 ÷ 4 × 5 % = 160 in by geometry
  const plan = planFor({
    size: { width: 80, height: 80 },
    layout: { kind: 'edge to edge', rows: 8, columns: 8, pieces_per_unit: 1 },
    lots: [[64, 'sound', 'A', 'keep']],
    spec: {},
    resewn: { joins: 0, by: 'hand' },
    joinLength: 10,
  });
  const found = {
    size: { width: 80, height: 80 },
    joining: { kind: 'lines', gap: 4, missing: 0.05 },
  } as const;
  const yards = ((160 * 1.3) / 36) * (1 + figures.number('materials.thread.waste'));
  expect(item(plan, 'sewing thread', { found })?.note).toBe(`about ${Math.ceil(yards)} yd`);
  expect(item(plan, 'sewing thread')).toBeUndefined();
});

describe('covers over pieced blocks', () => {
  // Nine-patches of 8 3/8 in: a cover is one cloth as large as its unit, whatever lies under it. Geometry.
  const blocks = (lots: readonly Lot[], pieces?: number) =>
    planFor({
      size: { width: 67, height: 67 },
      layout: {
        kind: 'edge to edge',
        rows: 8,
        columns: 8,
        finished: { width: 8.375, height: 8.375 },
        ...(pieces && { pieces_per_unit: pieces }),
      },
      lots,
      spec: {},
      resewn: { joins: 0, by: 'hand' },
      joinLength: 8.375,
    });
  const bought = (action: Lot[3], pieces?: number) =>
    materials(
      blocks(
        [
          [62, 'sound', 'A', 'keep'],
          [2, 'hole', 'A', action],
        ],
        pieces,
      ),
      shippedFigures(),
    ).items[0];

  test('are as large as their unit: two patches and a spare are cut 8 7/8 in, from 3/8 of a yard', () => {
    // One strip of 8 7/8 in gives four. By area alone an eighth of a yard was to be bought: 4 1/2 in, and no patch in it.
    expect(bought('patch_over', 9)).toMatchObject({ amount: 0.375, unit: 'yd' });
    expect(bought('patch_over', 9)?.note).toMatch(/^3 rectangles \(1 spare\), 3 cut 8 7\/8 in x 8 7\/8 in/);
  });

  test('of net are as large too, with their overlap: 9 3/8 in', () => {
    expect(bought('overlay', 9)?.note).toMatch(/^2 pieces of 9 3\/8 in x 9 3\/8 in/);
  });

  test('new blocks of unknown pieces are bought by area, but never less than a piece can be cut from', () => {
    // Nine pieces of 2.8 in a block are cut 3 3/8 in; two blocks cover 140 in2, 3 1/2 in off the bolt, an eighth of a yard.
    expect(bought('replace', 9)).toMatchObject({ amount: 0.125 });
    // Four of 4.2 in are cut 4 3/4 in: an eighth of a yard is 4 1/2 in, so a quarter.
    expect(bought('replace', 4)).toMatchObject({ amount: 0.25 });
  });
});
