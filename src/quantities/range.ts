/** A figure of judgement or a forecast: never a single number. `low` ≤ `likely` ≤ `high`, all in one unit. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const exactly = (value: number): Range => ({ low: value, likely: value, high: value });

export const plus = (a: Range, b: Range): Range => ({
  low: a.low + b.low,
  likely: a.likely + b.likely,
  high: a.high + b.high,
});

export const times = (range: Range, factor: number): Range => ({
  low: range.low * factor,
  likely: range.likely * factor,
  high: range.high * factor,
});
