import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LAYOUT_RULES } from '../../src/casebook/positions.ts';
import { layOut } from '../../src/piecework/lay-out.ts';
import { positionName, readPosition } from '../../src/piecework/positions.ts';
import { neighbours, unitAt, unitRows } from '../../src/piecework/reading.ts';

describe('positions', () => {
  it('go from A to Z and on to AA', () => {
    expect([0, 25, 26, 51, 52, 701, 702].map((row) => positionName(row, 0))).toEqual([
      'A1',
      'Z1',
      'AA1',
      'AZ1',
      'BA1',
      'ZZ1',
      'AAA1',
    ]);
  });

  it('are read as they are written', () => {
    fc.assert(
      fc.property(fc.nat({ max: 800 }), fc.nat({ max: 999 }), (row, column) => {
        expect(readPosition(positionName(row, column))).toEqual({ row, column });
        expect(readPosition(` ${positionName(row, column).toLowerCase()} `)).toEqual({ row, column });
      }),
    );
  });

  it.each(['', 'A', '4', 'A0', '4D', 'A-1', 'A1.5', 'top-1'])('are not read from %j', (text) => {
    expect(readPosition(text)).toBeUndefined();
  });
});

describe('units', () => {
  const onPoint = layOut({ kind: 'on point', rows: 3, columns: 4 }, { width: 80, height: 60 });

  it('are found by position, and none is invented', () => {
    expect(unitAt(onPoint, 'b3')?.at).toBe('B3');
    expect(unitAt(onPoint, 'top-left')?.part).toBe('quarter');
    expect(unitAt(onPoint, 'B4')).toBeUndefined(); // in-between rows are one block shorter
    expect(unitAt(onPoint, 'Z9')).toBeUndefined();
  });

  it('stand in the rows of the map: outer rows and the shorter rows between them', () => {
    expect(unitRows(onPoint).map((row) => row.length)).toEqual([4, 3, 4, 3, 4]);
    const grid = layOut({ kind: 'edge to edge', rows: 2, columns: 3 }, { width: 30, height: 20 });
    expect(unitRows(grid).map((row) => row.map((unit) => unit.at))).toEqual([
      ['A1', 'A2', 'A3'],
      ['B1', 'B2', 'B3'],
    ]);
  });

  it('of a single column on point, such as a runner, stand one in each row with no row between them', () => {
    const runner = { kind: 'on point', rows: 3, columns: 1 } as const;
    const laid = layOut(runner, { width: 12, height: 36 });
    expect(unitRows(laid).map((row) => row.map((unit) => unit.at))).toEqual([['A1'], ['B1'], ['C1']]);
    // Three whole blocks, two halves down each side, a quarter in each corner; every block side is a join: 4 × 3.
    expect(laid.units).toHaveLength(3 + 4 + 4);
    expect(laid.joins).toHaveLength(12);
    expect(neighbours(laid, 'left-1').toSorted()).toEqual(['A1', 'B1']);
    expect(neighbours(laid, 'bottom-left')).toEqual(['C1']);
    const { rows, spot } = LAYOUT_RULES['on point'];
    expect(rows(runner)).toEqual([1, 1, 1]);
    expect(['A1', 'B1', 'C1', 'D1'].map((name) => spot(runner, name) !== undefined)).toEqual([
      true, true, true, false,
    ]); // biome-ignore format: four in a row
  });

  it('know their place in the map: row and column counted from 0', () => {
    for (const [row, units] of unitRows(onPoint).entries())
      for (const [column, unit] of units.entries()) expect([unit.row, unit.column]).toEqual([row, column]);
  });
});
