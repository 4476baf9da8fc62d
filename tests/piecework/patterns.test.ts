import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LayoutSpec } from '../../src/casebook/model.ts';
import { layOut } from '../../src/piecework/lay-out.ts';
import {
  type Directions,
  gapOf,
  joiningGeometry,
  type Pattern,
  stitchingOf,
} from '../../src/piecework/patterns.ts';

const square = layOut(
  { kind: 'edge to edge', rows: 8, columns: 8, finished: { width: 10, height: 10 } },
  { width: 80, height: 80 },
);
const oblong = layOut(
  { kind: 'edge to edge', rows: 9, columns: 7, finished: { width: 10, height: 6 } },
  { width: 70, height: 54 },
);
const ties = (pattern: Pattern, on = square): number => stitchingOf(on, 'ties', pattern, 'both');
const lines = (pattern: Pattern, directions: Directions = 'both'): number =>
  stitchingOf(square, 'lines', pattern, directions);

describe('ties and lines on an 80 × 80 in quilt of 64 blocks', () => {
  // common practice, no source; geometry
  it('go to 49 block corners, or to 113 corners and centres', () => {
    expect(ties('every crossing')).toBe(49);
    expect(ties('crossings and centres')).toBe(113);
  });

  it('go to 361 points where the cells are 4 in', () => {
    const cells = layOut({ kind: 'survey grid', rows: 20, columns: 20 }, { width: 80, height: 80 });
    expect(ties('every crossing', cells)).toBe(361);
    expect(gapOf(cells, 'ties', 'every crossing', 'both')).toBe(4);
  });

  it('make 1,120 in of ditch lines both ways', () => {
    expect(lines('every seam')).toBe(1120);
    expect(lines('every seam', 'across')).toBe(560);
    expect(lines('every second seam')).toBe(2 * 3 * 80);
    expect(lines('every seam and mid-unit')).toBe(1120 + 2 * 8 * 80);
  });
});

describe('the gap left', () => {
  it('is the longer side of a unit at every crossing or seam, twice that at every second', () => {
    expect(gapOf(oblong, 'ties', 'every crossing', 'both')).toBe(10);
    expect(gapOf(oblong, 'tacks', 'every second crossing', 'both')).toBe(20);
    expect(gapOf(oblong, 'lines', 'every seam', 'both')).toBe(10);
    expect(gapOf(oblong, 'lines', 'every second seam', 'both')).toBe(20);
    expect(gapOf(oblong, 'lines', 'every seam and mid-unit', 'both')).toBe(5);
  });

  it('is the side across the lines where they run one way', () => {
    expect(gapOf(oblong, 'lines', 'every seam', 'across')).toBe(6);
    expect(gapOf(oblong, 'lines', 'every seam', 'down')).toBe(10);
  });

  it('is half the diagonal with ties in the centres too', () => {
    expect(gapOf(square, 'ties', 'crossings and centres', 'both')).toBeCloseTo(Math.SQRT2 * 5, 9);
  });

  it('counts the strip on sashed quilts', () => {
    const sashed = layOut(
      { kind: 'sashed', rows: 4, columns: 4, finished: { width: 9, height: 9 }, sashing: 2 },
      { width: 42, height: 42 },
    );
    expect(gapOf(sashed, 'ties', 'every crossing', 'both')).toBe(11);
  });

  it('is the block on point, not its diagonal', () => {
    const onPoint = layOut(
      { kind: 'on point', rows: 4, columns: 5, finished: { width: 8, height: 8 } },
      { width: 60, height: 60 },
    );
    expect(gapOf(onPoint, 'ties', 'every crossing', 'both')).toBeCloseTo(8, 9);
    expect(gapOf(onPoint, 'ties', 'crossings and centres', 'both')).toBeCloseTo(Math.SQRT2 * 4, 9);
    expect(gapOf(onPoint, 'lines', 'every seam', 'across')).toBeCloseTo(8, 9);
  });

  it('is the shorter side of the quilt where nothing joins it but the edge', () => {
    expect(gapOf(oblong, 'none', 'none', 'both')).toBe(54);
    const strip = layOut({ kind: 'edge to edge', rows: 1, columns: 6 }, { width: 60, height: 10 });
    expect(gapOf(strip, 'ties', 'every crossing', 'both')).toBe(10); // no seams cross
  });
});

const laid = fc
  .record({
    kind: fc.constantFrom<LayoutSpec['kind']>('edge to edge', 'sashed', 'on point', 'survey grid'),
    rows: fc.integer({ min: 1, max: 8 }),
    columns: fc.integer({ min: 1, max: 8 }),
  })
  .map((layout) =>
    layOut(layout.kind === 'sashed' ? { ...layout, sashing: 1.5 } : layout, { width: 72, height: 60 }),
  );
const directions = fc.constantFrom<Directions>('both', 'across', 'down');

describe('every pattern on every layout', () => {
  it('leaves no wider gap for more stitches of its kind', () => {
    fc.assert(
      fc.property(laid, directions, (piecework, way) => {
        const gaps = (...patterns: Pattern[]): number[] =>
          patterns.map((pattern) => gapOf(piecework, 'lines', pattern, way));
        for (const order of [
          gaps('every seam and mid-unit', 'every seam', 'every second seam', 'none'),
          gaps('crossings and centres', 'every crossing', 'every second crossing', 'none'),
        ])
          expect(order).toEqual(order.toSorted((a, b) => a - b));
      }),
    );
  });

  it('accounts for every inch of every line by the units it runs through', () => {
    fc.assert(
      fc.property(laid, directions, (piecework, way) => {
        const { lines: drawn } = joiningGeometry(piecework, {
          joining: 'lines',
          pattern: 'every seam and mid-unit',
          directions: way,
        });
        const names = new Set(piecework.units.map((unit) => unit.at));
        for (const line of drawn) {
          const covered = line.stretches.reduce((sum, stretch) => sum + stretch.length, 0);
          expect(covered).toBeCloseTo(line.length, 6);
          expect(Math.hypot(line.to.x - line.from.x, line.to.y - line.from.y)).toBeCloseTo(line.length, 6);
          expect(line.stretches.every(({ units }) => units.every((at) => names.has(at)))).toBe(true);
        }
        expect(new Set(drawn.map((line) => line.id)).size).toBe(drawn.length);
      }),
    );
  });

  it('crosses each whole unit once mid-unit, both ways', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        const { lines: drawn } = joiningGeometry(piecework, {
          joining: 'lines',
          pattern: 'every seam and mid-unit',
          directions: 'both',
        });
        const crossed = drawn
          .filter((line) => line.place === 'cloth')
          .flatMap((line) => line.stretches.flatMap(({ units }) => units));
        for (const unit of piecework.units)
          if (unit.part === 'whole') expect(crossed.filter((at) => at === unit.at)).toHaveLength(2);
      }),
    );
  });

  it('puts every second tie where every tie may go, no fewer than two lines apart', () => {
    fc.assert(
      fc.property(laid, (piecework) => {
        const points = (pattern: Pattern) =>
          joiningGeometry(piecework, { joining: 'ties', pattern, directions: 'both' }).points;
        const all = new Set(points('every crossing'));
        const second = points('every second crossing');
        expect(second.every((point) => all.has(point))).toBe(true);
        for (const [index, one] of second.entries())
          for (const other of second.slice(index + 1))
            expect(one.units.filter((at) => other.units.includes(at))).toEqual([]);
      }),
    );
  });
});
