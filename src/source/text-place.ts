import type { Place } from '../problems/problem.ts';

/** Finds lines and columns in one text. Offsets count UTF-16 units, as strings and editors do. */
export interface TextPlaces {
  /** The place of `length` characters at `offset`, cut off at the end of the line. */
  at(offset: number, length?: number): Place;
  /** One source line, counted from 1, without its line break. */
  line(number: number): string;
  /** The place of `length` characters at a line and column, both counted from 1. */
  onLine(number: number, column: number, length?: number): Place;
}

const lineStarts = (text: string): number[] => {
  const starts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
};

export const textPlaces = (file: string, text: string): TextPlaces => {
  const starts = lineStarts(text);
  const line = (number: number): string => {
    const start = starts[number - 1] ?? text.length;
    const next = starts[number];
    return text.slice(start, next === undefined ? text.length : next - 1).replace(/\r$/, '');
  };
  const onLine = (number: number, column: number, length = 1): Place => {
    const source = line(number);
    const room = Math.max(1, source.length - column + 1);
    return { file, line: number, column, length: Math.max(1, Math.min(length, room)), text: source };
  };
  const at = (offset: number, length = 1): Place => {
    const safe = Math.max(0, Math.min(offset, text.length));
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((starts[middle] ?? 0) <= safe) low = middle;
      else high = middle - 1;
    }
    return onLine(low + 1, safe - (starts[low] ?? 0) + 1, length);
  };
  return { at, line, onLine };
};
