import { isScalar } from 'yaml';
import type { Place } from '../../problems/problem.ts';
import type { Path, Source } from '../../source/source.ts';

/**
 * Where a row of a map, or `count` marks of it from `column` on (both counted from 0), stand in the file. A map
 * that was not written as a block under `|` is marked as a whole.
 */
export const mapPlace = (source: Source, path: Path, row: number, column = 0, count?: number): Place => {
  const node: unknown = source.doc.getIn(path, true);
  const whole = source.place(path);
  if (!isScalar(node) || node.type !== 'BLOCK_LITERAL') return whole;
  let number = whole.line;
  for (let seen = -1; seen < row; ) {
    number += 1;
    if (source.line(number).trim() !== '') seen += 1;
  }
  const line = source.line(number);
  const marks = [...line.matchAll(/\S/gu)].map((match) => match.index);
  const first = marks[column] ?? line.length;
  const last = marks[count === undefined ? marks.length - 1 : column + count - 1] ?? first;
  return source.onLine(number, first + 1, last - first + 1);
};
