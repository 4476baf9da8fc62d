import type { Span } from './fact.ts';

/** One line of the table: how many units are in a state, and how many of them are known to be of which fabric. */
export interface Row<State> {
  readonly state: State;
  readonly count: number;
  /** Units by fabric where somebody counted them; what is not counted lies among the other fabrics. */
  readonly told: Readonly<Record<string, number>>;
}

/** One column: how many units a fabric has, as likely and within bounds. `undefined` is cloth of no fabric surveyed. */
export interface Column {
  readonly family: string | undefined;
  readonly likely: number;
  readonly bounds: Span;
}

export interface Cell<State> {
  readonly state: State;
  readonly family: string | undefined;
  /** As many as is likely. */
  readonly count: number;
  /** The least and the most that rows and columns allow together. */
  readonly bounds: Span;
}

/**
 * States crossed with fabrics. What is told of both stands; the rest of each state is shared out over the fabrics by
 * what they have left, and every cell is bounded by what its row and its column leave it. The rows are all units of the
 * quilt, and the likely columns add up to as many.
 */
export function crossTabulate<State>(
  rows: readonly Row<State>[],
  columns: readonly Column[],
): readonly Cell<State>[] {
  const told = rows.map((row) => toldCells(row, columns));
  const open = rows.map(({ count }, r) => count - sum((told[r] ?? []).map((cell) => cell ?? 0)));
  const left = columns.map(({ likely }, c) => Math.max(0, likely - sum(told.map((row) => row[c] ?? 0))));
  const likely = shareOut(open, told, left);
  const free = (r: number, c: number): boolean => told[r]?.[c] === undefined;
  return rows.flatMap(({ state }, r) =>
    columns.map(({ family }, c): Cell<State> => {
      const known = told[r]?.[c];
      if (known !== undefined) return { state, family, count: known, bounds: { lo: known, hi: known } };
      const others = columns.filter((_, other) => other !== c && free(r, other));
      const elsewhere = sum(open.filter((_, other) => other !== r && free(other, c)));
      const inRow = open[r] ?? 0;
      const used = sum(told.map((row) => row[c] ?? 0));
      const lo = Math.max(
        0,
        inRow - sum(others.map(({ bounds }) => bounds.hi)),
        (columns[c]?.bounds.lo ?? 0) - used - elsewhere,
      );
      const hi = Math.max(0, Math.min(inRow, (columns[c]?.bounds.hi ?? 0) - used));
      const count = likely[r]?.[c] ?? 0;
      return { state, family, count, bounds: { lo: Math.min(lo, count), hi: Math.max(hi, count) } };
    }),
  );
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** The cells of a row somebody counted, cut back where together they are more than the row. */
function toldCells<State>(
  { count, told }: Row<State>,
  columns: readonly Column[],
): readonly (number | undefined)[] {
  let left = count;
  return columns.map(({ family }) => {
    const stated = family === undefined ? undefined : told[family];
    if (stated === undefined) return undefined;
    const cell = Math.min(left, stated);
    left -= cell;
    return cell;
  });
}

/** The small rows first, so that the largest, mostly the sound units, takes what each fabric then has left. */
function shareOut(
  open: readonly number[],
  told: readonly (readonly (number | undefined)[])[],
  columns: readonly number[],
): readonly (readonly number[])[] {
  const left = [...columns];
  const likely = open.map(() => columns.map(() => 0));
  const order = open.map((_, r) => r).sort((a, b) => (open[a] ?? 0) - (open[b] ?? 0) || b - a);
  for (const r of order) {
    const may = (c: number): boolean => told[r]?.[c] === undefined;
    const parts = apportion(
      open[r] ?? 0,
      weighed(
        left.map((rest, c) => (may(c) ? rest : 0)),
        columns.map((_, c) => may(c)),
      ),
    );
    parts.forEach((part, c) => {
      left[c] = Math.max(0, (left[c] ?? 0) - part);
    });
    likely[r] = [...parts];
  }
  return likely;
}

/** Where no fabric has anything left, whatever was told leaves more than there should be: any that may take it does. */
const weighed = (left: readonly number[], may: readonly boolean[]): readonly number[] =>
  sum(left) > 0 ? left : may.map((allowed) => (allowed ? 1 : 0));

/**
 * Shares out `total` whole pieces in proportion to the weights, by largest remainder; ties go to the earlier one.
 * Weights that are all nothing get nothing.
 */
export const apportion = (total: number, weights: readonly number[]): readonly number[] => {
  const sum = weights.reduce((all, weight) => all + weight, 0);
  if (sum <= 0) return weights.map(() => 0);
  const exact = weights.map((weight) => (total * weight) / sum);
  const whole = exact.map(Math.floor);
  const over = total - whole.reduce((all, part) => all + part, 0);
  const byRemainder = exact
    .map((value, index) => ({ index, rest: value - Math.floor(value) }))
    .sort((a, b) => b.rest - a.rest || a.index - b.index)
    .slice(0, over)
    .map(({ index }) => index);
  return whole.map((part, index) => part + (byRemainder.includes(index) ? 1 : 0));
};
