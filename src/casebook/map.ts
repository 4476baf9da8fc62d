import { UNIT_STATES, type UnitState } from './scales.ts';

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

/** States row by row; a mark that is not known counts as not seen (the checks report it, with its place). */
export const readUnits = (text: string): UnitState[][] =>
  mapRows(text).map((row) => row.map((mark) => stateOf(mark) ?? 'unseen'));

/** A map as text, one row a line, as `readUnits` reads it. */
export const writeUnits = (rows: readonly (readonly UnitState[])[]): string =>
  rows.map((row) => `${row.map((state) => UNIT_STATES[state]).join(' ')}\n`).join('');
