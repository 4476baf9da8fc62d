import type { Page, PageSection, Piece } from '../model.ts';

/** How a page of plain text is set: width in columns, colours where the terminal has them. */
export interface PageStyle {
  readonly width: number;
  readonly color: boolean;
}

/** Emphasis that never carries meaning by itself: the words do. */
export const bold = (text: string, { color }: PageStyle): string =>
  color ? `\u001b[1m${text}\u001b[22m` : text;
export const faint = (text: string, { color }: PageStyle): string =>
  color ? `\u001b[2m${text}\u001b[22m` : text;

/** Breaks a text into lines no wider than the page, the first led by `lead`, the others indented to match. */
export function paragraph(text: string, style: PageStyle, lead = '', hang = ' '.repeat(lead.length)): string {
  const lines: string[] = [];
  let line = lead;
  // A figure keeps its per cent sign beside it.
  for (const word of text.split(/\s+(?!%)/).filter((each) => each !== '')) {
    const empty = line === lead || line === hang;
    const next = empty ? `${line}${word}` : `${line} ${word}`;
    if (next.length > style.width && !empty) {
      lines.push(line);
      line = `${hang}${word}`;
    } else line = next;
  }
  return [...lines, line].join('\n');
}

export const heading = (text: string, style: PageStyle): string => `\n${bold(paragraph(text, style), style)}`;

/** `name` in a column of its own, the text beside it. */
export const row = (name: string, text: string, style: PageStyle, column = 24): string =>
  style.width < column + 30
    ? `${paragraph(name, style, '  ')}\n${paragraph(text, style, '    ')}`
    : paragraph(text, style, `  ${name.padEnd(column)}`, ' '.repeat(column + 2));

const ROWS = 10;
const MARKS = ['#', 'o', '+', 'x', '*'];

/** Survival curves in letters: one mark a curve, an earlier one covering a later where they meet. */
const stepChart = ({ curves, until }: Extract<Piece, { kind: 'steps' }>, style: PageStyle): string => {
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

/** A page for the terminal: the same words as its HTML. */
export const printPage = ({ title, lead, sections }: Page, style: PageStyle): string =>
  [
    heading(title, style).trimStart(),
    paragraph(lead, style),
    ...sections.map((each) => section(each, style)),
  ].join('\n');

const section = ({ title, pieces }: PageSection, style: PageStyle): string =>
  [heading(title, style), ...pieces.map((each) => piece(each, style))].join('\n');

const PIECES: {
  readonly [K in Piece['kind']]: (piece: Extract<Piece, { kind: K }>, style: PageStyle) => string;
} = {
  paragraph: ({ text }, style) => paragraph(text, style, '  '),
  list: ({ items }, style) => items.map((item) => paragraph(item, style, '  - ')).join('\n'),
  table: (table, style) =>
    [faint(paragraph(table.caption, style, '  '), style), tableText(table, style)].join('\n'),
  steps: (steps, style) =>
    [stepChart(steps, style), faint(paragraph(steps.caption, style, '  '), style)].join('\n'),
};

const piece = <K extends Piece['kind']>(one: Extract<Piece, { kind: K }>, style: PageStyle): string =>
  (PIECES[one.kind as K] as (piece: Extract<Piece, { kind: K }>, style: PageStyle) => string)(one, style);

const GAP = 2;

/** Columns side by side, cells wrapped; where the page is too narrow for that, row by row with the columns' names. */
const tableText = ({ columns, rows }: Extract<Piece, { kind: 'table' }>, style: PageStyle): string => {
  const room = style.width - 2 - GAP * (columns.length - 1);
  const cells = columns.map((name, index) => [name, ...rows.map((row) => row[index] ?? '')]);
  const widths = shareOut(
    cells.map((column) => Math.max(...column.map((cell) => cell.length))),
    cells.map((column) =>
      Math.max(...column.flatMap((cell) => cell.split(/\s+/).map((word) => word.length))),
    ),
    room,
  );
  if (widths === undefined) return stacked(columns, rows, style);
  const line = (cells: readonly string[]): string => {
    const wrapped = widths.map((width, index) =>
      paragraph(cells[index] ?? '', { ...style, width }, '').split('\n'),
    );
    const height = Math.max(...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, row) =>
      `  ${widths.map((width, index) => (wrapped[index]?.[row] ?? '').padEnd(width)).join(' '.repeat(GAP))}`.trimEnd(),
    ).join('\n');
  };
  const rule = `  ${widths.map((width) => '─'.repeat(width)).join(' '.repeat(GAP))}`;
  return [line(columns), faint(rule, style), ...rows.map(line)].join('\n');
};

/**
 * Every column gets its longest word, then what it asks for as far as the page goes, the most modest first. Undefined
 * where not even the longest words fit side by side.
 */
const shareOut = (
  wanted: readonly number[],
  words: readonly number[],
  room: number,
): number[] | undefined => {
  const given = [...words];
  let left = room - given.reduce((sum, width) => sum + width, 0);
  if (left < 0) return undefined;
  let open = wanted.map((_, index) => index).filter((index) => (wanted[index] ?? 0) > (given[index] ?? 0));
  while (open.length > 0 && left > 0) {
    const fair = Math.max(1, Math.floor(left / open.length));
    for (const index of open) {
      const more = Math.min(fair, left, (wanted[index] ?? 0) - (given[index] ?? 0));
      given[index] = (given[index] ?? 0) + more;
      left -= more;
    }
    open = open.filter((index) => (wanted[index] ?? 0) > (given[index] ?? 0));
  }
  return given;
};

const stacked = (
  columns: readonly string[],
  rows: readonly (readonly string[])[],
  style: PageStyle,
): string =>
  rows
    .map((row) =>
      row
        .map((cell, index) =>
          cell === '' ? '' : paragraph(`${columns[index]}: ${cell}`, style, index === 0 ? '  ' : '    '),
        )
        .filter((cell) => cell !== '')
        .join('\n'),
    )
    .join('\n');
