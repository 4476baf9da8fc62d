import type { FurtherMark, JoinSurvey, LayoutSpec } from './model.ts';
import { GRAVEST_FIRST, UNIT_STATES, type UnitState } from './scales.ts';

/** A place on a layout: rows and columns for rectangular ones, the half-diagonal lattice for blocks on point. */
interface Spot {
  readonly row: number;
  readonly column: number;
}

/** `A`, `B`, … `Z`, `AA` for rows counted from 0. */
export const rowName = (row: number): string =>
  (row < 26 ? '' : rowName(Math.floor(row / 26) - 1)) + String.fromCharCode(65 + (row % 26));

/** Row and column of a place on a map, counted from 0; undefined where the name is none. */
export const rowAndColumn = (name: string): Spot | undefined => {
  const [, letters, digits] = /^([A-Z]{1,3})([1-9]\d{0,3})$/.exec(name) ?? [];
  if (letters === undefined) return undefined;
  const row = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row, column: Number(digits) - 1 };
};

/** A position as every file writes it: `d4` is `D4`; edge units of a quilt on point keep small letters. */
export const positionName = (text: string): string => {
  const upper = text.trim().toUpperCase();
  return rowAndColumn(upper) ? upper : text.trim().toLowerCase();
};

interface LayoutRules {
  /** Marks in each row of a map. */
  readonly rows: (layout: LayoutSpec) => readonly number[];
  /** Joins between units; undefined where they are patches, which the layout does not tell. */
  readonly joins: (layout: LayoutSpec) => number | undefined;
  readonly spot: (layout: LayoutSpec, name: string) => Spot | undefined;
  readonly neighbours: (a: Spot, b: Spot, sign: '|' | '/') => boolean;
  /** Extent of all units together; undefined where it is the quilt's own. */
  readonly extent: (layout: LayoutSpec) => { width: number; height: number } | undefined;
}

const times = (count: number, value: number): number[] => Array.from({ length: count }, () => value);

const rectangular: LayoutRules = {
  rows: ({ rows, columns }) => times(rows, columns),
  joins: ({ rows, columns }) => rows * (columns - 1) + columns * (rows - 1),
  spot: ({ rows, columns }, name) => {
    const spot = rowAndColumn(name);
    return spot && spot.row < rows && spot.column < columns ? spot : undefined;
  },
  neighbours: (a, b, sign) => {
    const [across, down] = [Math.abs(a.column - b.column), Math.abs(a.row - b.row)];
    return sign === '|' ? across === 1 && down === 0 : across === 0 && down === 1;
  },
  extent: ({ rows, columns, finished, sashing = 0 }) =>
    finished && {
      width: columns * finished.width + (columns - 1) * sashing,
      height: rows * finished.height + (rows - 1) * sashing,
    },
};

/**
 * Blocks on point: n columns by m rows of whole blocks and, between them, m−1 rows of n−1. Half units edge the
 * quilt, quarter units its corners; every block side is a join, 4mn in all. A single column, such as a runner, has
 * nothing in between.
 */
const onPoint: LayoutRules = {
  rows: ({ rows, columns }) =>
    columns === 1
      ? times(rows, 1)
      : Array.from({ length: 2 * rows - 1 }, (_, row) => (row % 2 === 0 ? columns : columns - 1)),
  joins: ({ rows, columns }) => 4 * rows * columns,
  spot: ({ rows, columns }, name) => {
    const [bottom, right] = [2 * rows, 2 * columns];
    const whole = rowAndColumn(name);
    if (whole) {
      const level = whole.row * (columns === 1 ? 2 : 1);
      const inRow = level % 2 === 0 ? columns : columns - 1;
      if (level > bottom - 2 || whole.column >= inRow) return undefined;
      return { row: level + 1, column: 2 * whole.column + (level % 2 === 0 ? 1 : 2) };
    }
    const [, side, digits, corner] = /^(top|bottom|left|right)-(?:(\d+)|(left|right))$/.exec(name) ?? [];
    const along = 2 * Number(digits ?? 0);
    const level = side === 'top' ? 0 : bottom;
    const end = (word: string | undefined): number => (word === 'left' ? 0 : right);
    if (side === 'top' || side === 'bottom') {
      if (corner !== undefined) return { row: level, column: end(corner) };
      return along > 0 && along < right ? { row: level, column: along } : undefined;
    }
    if (side === undefined || corner !== undefined) return undefined;
    return along > 0 && along < bottom ? { row: along, column: end(side) } : undefined;
  },
  neighbours: (a, b) => Math.abs(a.row - b.row) === 1 && Math.abs(a.column - b.column) === 1,
  extent: ({ rows, columns, finished }) =>
    finished && {
      width: columns * finished.width * Math.SQRT2,
      height: rows * finished.height * Math.SQRT2,
    },
};

/** What a case file may say of each layout. The geometry itself is piecework's, a room above. */
export const LAYOUT_RULES: Readonly<Record<LayoutSpec['kind'], LayoutRules>> = {
  'edge to edge': rectangular,
  sashed: rectangular,
  'on point': onPoint,
  // Counts, joins and finished sizes are those of patches there; the cells are only an aid to finding places.
  'survey grid': { ...rectangular, joins: () => undefined, extent: () => undefined },
};

const BY_MARK: ReadonlyMap<string, UnitState> = new Map(
  Object.entries(UNIT_STATES).map(([state, mark]) => [mark, state as UnitState]),
);

/** The marks of a map, row by row. Blanks between marks and empty lines are only for the eye. */
export const mapRows = (text: string): string[][] =>
  text
    .split(/\r?\n/)
    .map((line) => [...line.replace(/\s+/g, '')])
    .filter((row) => row.length > 0);

/** The state a mark stands for, or undefined where the map has no such mark. */
export const stateOf = (mark: string): UnitState | undefined => BY_MARK.get(mark);

const STATES = Object.keys(UNIT_STATES) as UnitState[];

/** A mark of the map, or the word for it. */
export const stateCalled = (word: string): UnitState | undefined =>
  stateOf(word) ?? STATES.find((state) => state === word.toLowerCase());

/** Marks typed together, `xf`, or their words, `lost+flattened`: the gravest first, each once; undefined where one is none. */
export const marksCalled = (text: string): readonly UnitState[] | undefined => {
  const whole = stateCalled(text);
  const words = /[+,\s]/.test(text) ? text.split(/[+,\s]+/) : [...text];
  const marks = whole === undefined ? words.map(stateCalled) : [whole];
  if (marks.length === 0 || marks.includes(undefined)) return undefined;
  const once = [...new Set(marks as UnitState[])];
  // Nothing goes with sound, missing or not seen.
  if (once.length > 1 && !once.every((mark) => rankOf(mark) >= 0)) return undefined;
  return once.sort((a, b) => rankOf(a) - rankOf(b));
};

/** How grave a mark is beside others of the same unit, 0 the gravest; below 0 where it stands alone. */
export const rankOf = (state: UnitState): number => GRAVEST_FIRST.indexOf(state);

/** `B3 flattened` as a case file writes a further mark of a unit; undefined where it is none. */
export const readFurther = (text: string): FurtherMark | undefined => {
  const [, at, word] = /^\s*([A-Za-z]{1,3}\d{1,4})\s+(\S+)\s*$/.exec(text) ?? [];
  const state = word === undefined ? undefined : stateCalled(word);
  return at === undefined || state === undefined ? undefined : { at: positionName(at), state };
};

/** States row by row; a mark that is not known counts as not seen (the checks report it, with its place). */
export const readUnits = (text: string): UnitState[][] =>
  mapRows(text).map((row) => row.map((mark) => stateOf(mark) ?? 'unseen'));

/** A map as text, one row a line, as `readUnits` reads it. */
export const writeUnits = (rows: readonly (readonly UnitState[])[]): string =>
  rows.map((row) => `${row.map((state) => UNIT_STATES[state]).join(' ')}\n`).join('');

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

const isCause = (word: string | undefined): word is (typeof CAUSES)[number] =>
  CAUSES.some((cause) => cause === word);

interface WrittenJoin {
  readonly a: string;
  readonly b: string;
  /** `|` side by side, `/` one above the other. */
  readonly sign: '|' | '/';
  readonly cause?: (typeof CAUSES)[number];
}

/** Reads `C4|C5 thread` or `B2/C2`; undefined where it is neither. Whether the quilt has that join is asked elsewhere. */
export const readJoin = (text: string): WrittenJoin | undefined => {
  const [, a, sign, b, cause] =
    /^\s*([A-Za-z0-9-]+)\s*([|/])\s*([A-Za-z0-9-]+)(?:\s+(\w+))?\s*$/.exec(text) ?? [];
  if (a === undefined || b === undefined || (sign !== '|' && sign !== '/')) return undefined;
  if (cause !== undefined && !isCause(cause)) return undefined;
  return { a, b, sign, ...(cause === undefined ? {} : { cause }) };
};

/** A unit or a join as every file writes it: `c4|c5` is `C4|C5`. */
export const placeName = (text: string): string => {
  const join = readJoin(text);
  return join === undefined || join.cause !== undefined
    ? positionName(text)
    : `${positionName(join.a)}${join.sign}${positionName(join.b)}`;
};

/** What one join is known by, whichever of its two units is named first. */
export const joinKey = (a: string, b: string): string => [a, b].sort().join(' ');

/** The counts that follow from joins listed one by one, where the file does not state them itself. */
export const withCounts = (joins: JoinSurvey): JoinSurvey => {
  const listed = joins.open_at;
  if (listed === undefined) return joins;
  const follows: { -readonly [K in 'open' | (typeof CAUSES)[number]]?: number } = { open: listed.length };
  // A cause is counted only where every listed join has one; otherwise the figure would be too low.
  if (listed.every((join) => join.cause !== undefined) && (joins.open ?? listed.length) === listed.length) {
    for (const cause of CAUSES) follows[cause] = listed.filter((join) => join.cause === cause).length;
  }
  return { ...follows, ...joins };
};
