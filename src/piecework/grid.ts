import type { Crossing, Join, Piecework, SeamLine, Unit } from './model.ts';
import { positionName } from './positions.ts';

/** A rectangular setting: equal units in rows and columns, with a strip of `strip` inches (0 for none) between them. */
export interface GridMeasures {
  readonly kind: Piecework['kind'];
  readonly rows: number;
  readonly columns: number;
  readonly unit: { readonly width: number; readonly height: number };
  readonly strip: number;
  readonly piecesPerUnit: number | undefined;
}

const count = (n: number): readonly number[] => Array.from({ length: Math.max(0, n) }, (_, index) => index);

/**
 * Units row by row, joins, seam lines and crossings of a rectangular setting. An r × c setting has r(c−1) + c(r−1)
 * joins, (r−1) + (c−1) seam lines and (r−1)(c−1) crossings. Where there is a strip, lines and joins lie on its
 * middle: one strip counts as one seam. Line ids are `across-1` (below row A) … and `down-1` (right of column 1) …
 */
export const layGrid = ({ kind, rows, columns, unit, strip, piecesPerUnit }: GridMeasures): Piecework => {
  const width = columns * unit.width + (columns - 1) * strip;
  const height = rows * unit.height + (rows - 1) * strip;
  const left = (column: number): number => column * (unit.width + strip);
  const top = (row: number): number => row * (unit.height + strip);
  const seamBelow = (row: number): number => top(row + 1) - strip / 2;
  const seamRightOf = (column: number): number => left(column + 1) - strip / 2;

  const units: readonly Unit[] = count(rows).flatMap((row) =>
    count(columns).map((column): Unit => {
      const [x, y] = [left(column), top(row)];
      const outline = [
        { x, y },
        { x: x + unit.width, y },
        { x: x + unit.width, y: y + unit.height },
        { x, y: y + unit.height },
      ];
      const area = unit.width * unit.height;
      return { at: positionName(row, column), row, column, part: 'whole', outline, area };
    }),
  );

  const joins: readonly Join[] = count(rows).flatMap((row) => [
    ...count(columns - 1).map((column): Join => {
      const x = seamRightOf(column);
      return {
        a: positionName(row, column),
        b: positionName(row, column + 1),
        from: { x, y: top(row) },
        to: { x, y: top(row) + unit.height },
        length: unit.height,
        line: `down-${column + 1}`,
      };
    }),
    ...(row < rows - 1 ? count(columns) : []).map((column): Join => {
      const y = seamBelow(row);
      return {
        a: positionName(row, column),
        b: positionName(row + 1, column),
        from: { x: left(column), y },
        to: { x: left(column) + unit.width, y },
        length: unit.width,
        line: `across-${row + 1}`,
      };
    }),
  ]);

  const lines: readonly SeamLine[] = [
    ...count(rows - 1).map((row): SeamLine => {
      const y = seamBelow(row);
      return {
        id: `across-${row + 1}`,
        direction: 'across',
        from: { x: 0, y },
        to: { x: width, y },
        length: width,
      };
    }),
    ...count(columns - 1).map((column): SeamLine => {
      const x = seamRightOf(column);
      return {
        id: `down-${column + 1}`,
        direction: 'down',
        from: { x, y: 0 },
        to: { x, y: height },
        length: height,
      };
    }),
  ];

  const crossings: readonly Crossing[] = count(rows - 1).flatMap((row) =>
    count(columns - 1).map((column) => ({
      at: { x: seamRightOf(column), y: seamBelow(row) },
      units: [
        positionName(row, column),
        positionName(row, column + 1),
        positionName(row + 1, column),
        positionName(row + 1, column + 1),
      ],
    })),
  );

  return { kind, rows, columns, width, height, unit, units, joins, lines, crossings, piecesPerUnit };
};
