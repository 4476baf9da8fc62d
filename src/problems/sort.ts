import type { Problem } from './problem.ts';

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** By file, line and column; what has no place comes first, and equal places keep the order they came in. */
export const byPlace = (a: Problem, b: Problem): number => {
  if (!a.place || !b.place) return Number(a.place !== undefined) - Number(b.place !== undefined);
  return (
    compareText(a.place.file, b.place.file) || a.place.line - b.place.line || a.place.column - b.place.column
  );
};
