import type {
  Crossing,
  Frame,
  Join,
  JoiningLine,
  JoiningPoint,
  Piecework,
  Place,
  SeamLine,
  Stretch,
  Unit,
} from './model.ts';
import { alongJoins, positionName } from './positions.ts';

/** A rectangular setting: equal units in rows and columns, with a strip of `strip` inches (0 for none) between them. */
interface GridMeasures {
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

const middleOf = ({ outline: [corner] }: Unit, unit: Piecework['unit']): { x: number; y: number } => ({
  x: (corner?.x ?? 0) + unit.width / 2,
  y: (corner?.y ?? 0) + unit.height / 2,
});

/** Lines and crossings of rectangular settings, sashed ones included: spacing is counted from strip to strip. */
export const gridFrame = (piecework: Piecework): Frame => {
  const { rows, columns, unit, width, height, units } = piecework;
  const strip = {
    x: columns > 1 ? (width - columns * unit.width) / (columns - 1) : 0,
    y: rows > 1 ? (height - rows * unit.height) / (rows - 1) : 0,
  };
  const pitch = { x: unit.width + strip.x, y: unit.height + strip.y };
  // One cloth has no seams for stitches to hide in, but its cells still say over what a line runs.
  const seamless = piecework.joins.length === 0;
  const place: Place = seamless ? 'cloth' : 'seam';
  const joins = seamless ? layGrid({ ...piecework, strip: 0 }).joins : piecework.joins;
  const seams = alongJoins(piecework.lines, joins, place);

  const centres = units.map(
    (each): JoiningPoint => ({ at: middleOf(each, unit), units: [each.at], place: 'cloth' }),
  );
  const middle = (direction: 'across' | 'down', index: number): JoiningLine => {
    const along = direction === 'across';
    const crossed = units.filter((each) => (along ? each.row : each.column) === index);
    const inStrips = along ? strip.x * (columns - 1) : strip.y * (rows - 1);
    const stretches: Stretch[] = crossed.map(({ at }) => ({
      units: [at],
      length: along ? unit.width : unit.height,
    }));
    if (inStrips > 0) stretches.push({ units: [], length: inStrips });
    const at = along ? index * pitch.y + unit.height / 2 : index * pitch.x + unit.width / 2;
    return {
      id: `${direction}-middle-${index + 1}`,
      direction,
      from: along ? { x: 0, y: at } : { x: at, y: 0 },
      to: along ? { x: width, y: at } : { x: at, y: height },
      length: along ? width : height,
      place: 'cloth',
      stretches,
    };
  };

  return {
    across: { pitch: pitch.y, bands: rows },
    down: { pitch: pitch.x, bands: columns },
    toCentre: Math.hypot(pitch.x, pitch.y) / 2,
    crossings: piecework.crossings.map(({ at, units: four }, index) => ({
      point: { at, units: four, place },
      across: Math.floor(index / (columns - 1)) + 1,
      down: (index % (columns - 1)) + 1,
    })),
    centres,
    seams: {
      across: seams.filter((line) => line.direction === 'across'),
      down: seams.filter((line) => line.direction === 'down'),
    },
    middles: {
      across: Array.from({ length: rows }, (_, row) => middle('across', row)),
      down: Array.from({ length: columns }, (_, column) => middle('down', column)),
    },
  };
};
