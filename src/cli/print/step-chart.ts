import type { Piece } from '../../experience/pages/page.ts';
import type { PageStyle } from './layout.ts';

const ROWS = 10;
const MARKS = ['#', 'o', '+', 'x', '*'];

/** Survival curves in letters: one mark a curve, an earlier one covering a later where they meet. */
export const stepChart = ({ curves, until }: Extract<Piece, { kind: 'steps' }>, style: PageStyle): string => {
  const columns = Math.min(60, style.width - 12);
  const cells = Array.from({ length: ROWS + 1 }, () => Array.from({ length: columns }, () => ' '));
  for (const [index, { steps }] of [...curves.entries()].reverse()) {
    for (let column = 0; column < columns; column += 1) {
      const time = ((column + 0.5) / columns) * until;
      const share = steps.filter((step) => step.time <= time).at(-1)?.survival ?? 1;
      const row = cells[Math.round((1 - share) * ROWS)];
      if (row !== undefined) row[column] = MARKS[index % MARKS.length] ?? '#';
    }
  }
  const lines = cells.map((row, index) => {
    const label = index % 5 === 0 ? `${100 - index * 10} %`.padStart(6) : '      ';
    return `  ${label} |${row.join('').trimEnd()}`;
  });
  const end = String(until);
  const axis = `         0${' '.repeat(Math.max(1, columns - 1 - end.length))}${end} years`;
  const key = curves.map(({ name }, index) => `         ${MARKS[index % MARKS.length]} ${name}`);
  return [...lines, `         ${'-'.repeat(columns)}`, axis, ...key].join('\n');
};
