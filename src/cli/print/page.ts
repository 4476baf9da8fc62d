import type { Page, PageSection, Piece } from '../../experience/pages/page.ts';
import { faint, heading, type PageStyle, paragraph } from './layout.ts';
import { stepChart } from './step-chart.ts';

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
