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
  const widths = shareOut(
    columns.map((name, index) => Math.max(name.length, ...rows.map((row) => row[index]?.length ?? 0))),
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

const LEAST = 8;

/** Columns that ask for little get it; the rest share what is left. Undefined where no column could be read. */
const shareOut = (wanted: readonly number[], room: number): number[] | undefined => {
  const given = wanted.map(() => 0);
  let left = room;
  let open = wanted.map((_, index) => index);
  while (open.length > 0) {
    const fair = Math.floor(left / open.length);
    const content = open.filter((index) => (wanted[index] ?? 0) <= fair);
    for (const index of content.length > 0 ? content : open) {
      given[index] = content.length > 0 ? (wanted[index] ?? 0) : fair;
      left -= given[index] ?? 0;
    }
    open = content.length > 0 ? open.filter((index) => !content.includes(index)) : [];
  }
  return given.every((width, index) => width >= Math.min(LEAST, wanted[index] ?? 0)) ? given : undefined;
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
