import { memo } from '../quantities/memo.ts';
import type { Join, Piecework, Unit } from './model.ts';
import { readPosition } from './positions.ts';

interface Index {
  readonly units: ReadonlyMap<string, Unit>;
  readonly beside: ReadonlyMap<string, readonly string[]>;
  readonly joins: ReadonlyMap<string, readonly Join[]>;
}

// Without it the questions of three cases take 10 % more processor time.
const indexOf = memo(8, ({ piecework }: { readonly piecework: Piecework }): Index => {
  const units = new Map(piecework.units.map((unit) => [unit.at, unit]));
  const beside = new Map<string, string[]>(piecework.units.map((unit) => [unit.at, []]));
  const meet = (a: string, b: string): void => {
    beside.get(a)?.push(b);
    beside.get(b)?.push(a);
  };
  if (piecework.joins.length > 0) for (const join of piecework.joins) meet(join.a, join.b);
  else {
    // One cloth without seams: cells still lie beside each other.
    const at = new Map(piecework.units.map((unit) => [`${unit.row} ${unit.column}`, unit.at]));
    for (const unit of piecework.units)
      for (const next of [`${unit.row} ${unit.column + 1}`, `${unit.row + 1} ${unit.column}`]) {
        const other = at.get(next);
        if (other !== undefined) meet(unit.at, other);
      }
  }
  const joins = new Map<string, Join[]>(piecework.units.map((unit) => [unit.at, []]));
  for (const join of piecework.joins) {
    joins.get(join.a)?.push(join);
    joins.get(join.b)?.push(join);
  }
  return { units, beside, joins };
});

/** The unit at a position as written (`d4` or `D4`; on point also `top-1`, `top-left` …), or undefined. */
export const unitAt = (piecework: Piecework, at: string): Unit | undefined => {
  const name = at.trim();
  const upper = readPosition(name) === undefined ? name.toLowerCase() : name.toUpperCase();
  return indexOf({ piecework }).units.get(upper);
};

/** Positions that share an edge with this one (across the strip on sashed layouts); none for an unknown position. */
export const neighbours = (piecework: Piecework, at: string): readonly string[] =>
  indexOf({ piecework }).beside.get(at) ?? [];

/**
 * Whole units in reading order, row by row: one entry a line and one a character of the maps in a case file.
 * Rectangular layouts: `rows` rows of `columns`. On point: 2 × `rows` − 1 rows, outer rows of `columns` and
 * in-between rows of `columns` − 1; the half and quarter units of the edge are on no map.
 */
export const unitRows = (piecework: Piecework): readonly (readonly Unit[])[] => {
  const rows: Unit[][] = [];
  for (const unit of piecework.units) {
    if (unit.part !== 'whole') continue;
    const row = rows[unit.row];
    if (row === undefined) rows[unit.row] = [unit];
    else row.push(unit);
  }
  return rows;
};

/** Joins of one unit with its neighbours; none for an unknown position. */
export const joinsOf = (piecework: Piecework, at: string): readonly Join[] =>
  indexOf({ piecework }).joins.get(at) ?? [];
