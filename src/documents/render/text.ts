import type { Block, Sheet, Words } from '../model.ts';
import type { Picture } from '../pictures/picture.ts';

type Of<Kind extends Block['kind']> = Extract<Block, { kind: Kind }>;

/** Columns: what a mail program shows without breaking lines of its own. */
const WIDTH = 76;

const plain = (text: Words): string =>
  typeof text === 'string'
    ? text
    : text
        .map((run) => (typeof run === 'string' ? run : 'strong' in run ? run.strong : ` [${run.note}]`))
        .join('');

/** Lines no wider than the page, the first led by `lead`, the others indented to match. */
function wrap(text: string, lead = ''): string {
  const hang = ' '.repeat(lead.length);
  const lines: string[] = [];
  let line = lead;
  let empty = true;
  for (const word of text.split(' ').filter((each) => each !== '')) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = hang + word;
    } else line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
}

/** A picture in letters where it has any, else in words. */
const drawing = (picture: Picture): string =>
  [
    `${picture.title}:`,
    ...(picture.plain.length === 0
      ? [wrap(picture.description)]
      : [
          picture.plain.map((line) => `  ${line}`).join('\n'),
          ...picture.key.map(({ mark, words }) => wrap(words, `  ${mark.padEnd(2)} `)),
        ]),
  ].join('\n');

/** Every kind of block as plain text. */
const RENDERERS: { readonly [Kind in Block['kind']]: (block: Of<Kind>) => string } = {
  paragraph: ({ text }) => wrap(plain(text)),
  subheading: ({ text }) => `${text}:`,
  list: ({ items, ordered }) =>
    items.map((item, index) => wrap(plain(item), ordered === true ? `${index + 1}. ` : '- ')).join('\n'),
  facts: ({ rows }) => rows.map(({ name, text }) => wrap(`${name}: ${plain(text)}`, '- ')).join('\n'),
  table: ({ caption, columns, rows }) =>
    [
      `${caption}:`,
      ...rows.map(({ name, cells }) =>
        wrap(
          `${name}: ${cells.map((cell, index) => `${columns[index + 1] ?? ''} ${cell}`.trim()).join('; ')}`,
          '- ',
        ),
      ),
    ].join('\n'),
  compare: ({ options, rows }) =>
    rows
      .map(({ name, cells }) =>
        [
          `${name}:`,
          ...cells.map((parts, index) =>
            wrap(`${options[index] ?? ''}: ${parts.map(plain).join(' ')}`, '  - '),
          ),
        ].join('\n'),
      )
      .join('\n\n'),
  picture: ({ picture }) => drawing(picture),
  pictures: ({ pictures }) => pictures.map(drawing).join('\n\n'),
  photo: ({ caption }) => wrap(caption, '  '),
  choices: ({ question, options, lines = 0 }) =>
    [
      wrap(question),
      ...options.map((option) => wrap(plain(option), '[ ] ')),
      ...Array.from({ length: lines }, () => `\n${'_'.repeat(WIDTH)}`),
    ].join('\n'),
  signatures: ({ labels }) => labels.map((label) => `\n${'_'.repeat(40)}\n${label}`).join('\n'),
  address: ({ lines }) => lines.join('\n'),
};

const render = <Kind extends Block['kind']>(block: Of<Kind>): string =>
  (RENDERERS[block.kind] as (block: Of<Kind>) => string)(block);

const ruled = (text: string, stroke: string): string =>
  `${text}\n${stroke.repeat(Math.min(WIDTH, text.length))}`;

/** The same document as plain text, for a letter by mail or a screen reader of few means. */
export function toText(sheet: Sheet): string {
  const parts = [
    ...(sheet.studio === undefined ? [] : [sheet.studio]),
    ...(sheet.contact === undefined ? [] : [wrap(sheet.contact)]),
    ruled(wrap(sheet.title), '='),
    sheet.particulars.map(({ name, text }) => `${name}: ${text}`).join('\n'),
    ...sheet.sections.flatMap(({ title, blocks }) => [
      ...(title === undefined ? [] : [ruled(title, '-')]),
      ...blocks.map(render),
    ]),
    `--\n${sheet.foot}`,
  ];
  return `${parts.join('\n\n')}\n`;
}
