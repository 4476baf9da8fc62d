import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LayoutSpec } from '../../src/casebook/model.ts';
import { LAYOUTS, layOut } from '../../src/piecework/lay-out.ts';
import type { Piecework, Point } from '../../src/piecework/model.ts';
import { neighbours } from '../../src/piecework/reading.ts';

const kinds = Object.keys(LAYOUTS) as LayoutSpec['kind'][];
const inch = fc.integer({ min: 4, max: 40 }).map((quarters) => quarters / 4);
const anyLayout = fc
  .record({
    kind: fc.constantFrom(...kinds),
    rows: fc.integer({ min: 1, max: 9 }),
    columns: fc.integer({ min: 1, max: 9 }),
    finished: fc.option(fc.record({ width: inch, height: inch }), { nil: undefined }),
    sashing: fc.option(inch, { nil: undefined }),
  })
  .map(
    ({ finished, sashing, ...rest }): LayoutSpec => ({
      ...rest,
      ...(finished === undefined ? {} : { finished }),
      ...(sashing === undefined ? {} : { sashing: sashing / 4 }),
    }),
  );
const laid = anyLayout.map((layout) => layOut(layout, { width: 80, height: 96 }));

/** Shoelace formula (Gauss): the area from the corners alone, an independent check of the stated one. */
const shoelace = (outline: readonly Point[]): number =>
  Math.abs(
    outline.reduce((sum, { x, y }, index) => {
      const next = outline[(index + 1) % outline.length] ?? { x, y };
      return sum + x * next.y - next.x * y;
    }, 0),
  ) / 2;
const total = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0);
const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

const stripArea = ({ kind, width, height, unit, rows, columns }: Piecework): number =>
  kind === 'sashed' ? width * height - rows * columns * unit.width * unit.height : 0;

describe('every layout', () => {
  it('gives each unit the area its corners enclose, and together they fill the piecework less the strips', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        for (const unit of piecework.units) expect(shoelace(unit.outline)).toBeCloseTo(unit.area, 6);
        const areas = total(piecework.units.map((unit) => unit.area));
        expect(areas + stripArea(piecework)).toBeCloseTo(piecework.width * piecework.height, 6);
      }),
    );
  });

  it('names every unit once and shares every join between two different units it has', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        const names = new Set(piecework.units.map((unit) => unit.at));
        expect(names.size).toBe(piecework.units.length);
        for (const { a, b } of piecework.joins) {
          expect(a).not.toBe(b);
          expect(names.has(a) && names.has(b)).toBe(true);
        }
        const pairs = piecework.joins.map(({ a, b }) => [a, b].toSorted().join(' '));
        expect(new Set(pairs).size).toBe(pairs.length);
      }),
    );
  });

  it('has as many joins as the textbook counts of a grid and of a diagonal setting', () => {
    fc.assert(
      fc.property(laid, ({ kind, rows: r, columns: c, joins }) => {
        expect(joins).toHaveLength(kind === 'on point' ? 4 * r * c : r * (c - 1) + c * (r - 1));
      }),
    );
  });

  it('lays its lines over the joins and nothing else, save where lines cross a strip', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        const crossed =
          piecework.kind === 'sashed' ? piecework.width - piecework.columns * piecework.unit.width : 0;
        for (const line of piecework.lines) {
          expect(distance(line.from, line.to)).toBeCloseTo(line.length, 6);
          const along = piecework.joins.filter((join) => join.line === line.id);
          for (const join of along) {
            expect(distance(join.from, join.to)).toBeCloseTo(join.length, 6);
            const detour = distance(line.from, join.from) + distance(join.from, line.to);
            expect(detour).toBeCloseTo(line.length, 6);
          }
          const strips =
            line.direction === 'across'
              ? crossed
              : piecework.kind === 'sashed'
                ? piecework.height - piecework.rows * piecework.unit.height
                : 0;
          expect(total(along.map((join) => join.length)) + strips).toBeCloseTo(line.length, 6);
        }
        const known = new Set(piecework.lines.map((line) => line.id));
        expect(piecework.joins.every((join) => known.has(join.line))).toBe(true);
      }),
    );
  });

  it('puts each crossing on the lines of four units that meet there', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        for (const crossing of piecework.crossings) {
          expect(new Set(crossing.units).size).toBe(4);
          const onLines = piecework.lines.filter(
            ({ from, to, length }) =>
              Math.abs(distance(from, crossing.at) + distance(crossing.at, to) - length) < 1e-6,
          );
          expect(onLines).toHaveLength(2);
        }
      }),
    );
  });

  it('makes neighbours of each other: if one unit lies beside another, so does the other', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        for (const { at } of piecework.units)
          for (const other of neighbours(piecework, at)) expect(neighbours(piecework, other)).toContain(at);
      }),
    );
  });
});

describe('a setting of blocks on point', () => {
  const piecework = layOut(
    { kind: 'on point', rows: 3, columns: 2, finished: { width: 8, height: 8 } },
    { width: 60, height: 60 },
  );

  it('has in-between blocks, half units on the edges and quarter units in the corners', () => {
    const parts = (part: string): number => piecework.units.filter((unit) => unit.part === part).length;
    // 3 × 2 outer and 2 × 1 in between; edges 2·(3−1) + 2·(2−1); four corners.
    expect([parts('whole'), parts('half'), parts('quarter')]).toEqual([8, 6, 4]);
    expect(piecework.crossings).toHaveLength(2 * 3 * 2 - 3 - 2);
  });

  it('is as many diagonals wide as it has columns: an 8 in block measures 11 5/16 in from corner to corner', () => {
    expect(piecework.unit.width).toBeCloseTo(11.3137, 4); // 8 × √2, geometry
    expect(piecework.width).toBeCloseTo(2 * 11.3137, 3);
    expect(piecework.joins.every((join) => Math.abs(join.length - 8) < 1e-9)).toBe(true);
  });

  it('puts A1 in the outer row and B1 between A1 and A2', () => {
    expect(neighbours(piecework, 'B1').toSorted()).toEqual(['A1', 'A2', 'C1', 'C2']);
    expect(neighbours(piecework, 'top-left')).toEqual(['A1']);
    expect(neighbours(piecework, 'left-1').toSorted()).toEqual(['A1', 'C1']);
    expect(neighbours(piecework, 'top-1').toSorted()).toEqual(['A1', 'A2']);
  });
});

describe('where measures are missing', () => {
  it('lays a survey grid of cells of about 10 in over a quilt without a layout', () => {
    const piecework = layOut(undefined, { width: 54, height: 78 });
    expect([piecework.kind, piecework.rows, piecework.columns]).toEqual(['survey grid', 8, 5]);
    expect([piecework.width, piecework.height]).toEqual([54, 78]);
  });

  it('takes the block from the size of the quilt', () => {
    const piecework = layOut({ kind: 'edge to edge', rows: 8, columns: 8 }, { width: 72, height: 72 });
    expect(piecework.unit).toEqual({ width: 9, height: 9 });
    const sashed = layOut({ kind: 'sashed', rows: 3, columns: 3, sashing: 2 }, { width: 34, height: 34 });
    expect(sashed.unit).toEqual({ width: 10, height: 10 });
  });

  it('takes the strip from what the blocks leave over', () => {
    const layout: LayoutSpec = { kind: 'sashed', rows: 3, columns: 3, finished: { width: 10, height: 10 } };
    const piecework = layOut(layout, { width: 34, height: 34 });
    expect(piecework.units.find((unit) => unit.at === 'A2')?.outline[0]).toEqual({ x: 12, y: 0 });
  });

  it('gives a wholecloth quilt cells and crossings but no joins', () => {
    const piecework = layOut(undefined, { width: 60, height: 60 }, 'wholecloth');
    expect(piecework.joins).toEqual([]);
    expect(piecework.crossings).toHaveLength(25);
    expect(neighbours(piecework, 'B2').toSorted()).toEqual(['A2', 'B1', 'B3', 'C2']);
  });
});
