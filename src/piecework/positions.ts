import type { Join, JoiningLine, Place, SeamLine, Stretch } from './model.ts';

/** A place in a map of units: row and column counted from 0, from the viewer's top left. */
interface Position {
  readonly row: number;
  readonly column: number;
}

const LETTERS = 26;
const WRITTEN = /^([A-Z]{1,3})([1-9]\d{0,3})$/;

/** `A` for row 0, `Z` for row 25, then `AA`, `AB` … */
export const rowLetters = (row: number): string => {
  const last = String.fromCharCode(65 + (row % LETTERS));
  return row < LETTERS ? last : rowLetters(Math.floor(row / LETTERS) - 1) + last;
};

/** `A1` for row 0 and column 0. */
export const positionName = (row: number, column: number): string => `${rowLetters(row)}${column + 1}`;

/**
 * Reads `D4`, also `d4`, as a row and a column counted from 0. Undefined where the text is no such name;
 * whether the quilt has that position is another question (`unitAt`).
 */
export const readPosition = (text: string): Position | undefined => {
  const [, letters, digits] = WRITTEN.exec(text.trim().toUpperCase()) ?? [];
  if (letters === undefined || digits === undefined) return undefined;
  const row = [...letters].reduce((sum, letter) => sum * LETTERS + letter.charCodeAt(0) - 64, 0) - 1;
  return { row, column: Number(digits) - 1 };
};

/** Seam lines with the pairs of units they run between; what no join covers lies in the strips of a sashed layout. */
export const alongJoins = (
  lines: readonly SeamLine[],
  joins: readonly Join[],
  place: Place,
): readonly JoiningLine[] => {
  const byLine = new Map<string, Stretch[]>(lines.map((line) => [line.id, []]));
  for (const { a, b, length, line } of joins) byLine.get(line)?.push({ units: [a, b], length });
  return lines.map((line) => {
    const pairs = byLine.get(line.id) ?? [];
    const left = line.length - pairs.reduce((sum, pair) => sum + pair.length, 0);
    const stretches = left > 1e-9 * line.length ? [...pairs, { units: [], length: left }] : pairs;
    return { ...line, place, stretches };
  });
};
