import type { Block, Sheet, Words } from '../model.ts';
import type { Picture } from '../pictures/picture.ts';

type Of<Kind extends Block['kind']> = Extract<Block, { kind: Kind }>;

/** Text that Markdown and HTML would read as marks, made plain. */
const unmarked = (text: string): string =>
  text
    .replace(/[\\`*_{}[\]<>#|~!]/g, '\\$&')
    .replace(/&/g, '&amp;')
    .replace(/^(\d+)([.)])(?=\s)/, '$1\\$2')
    .replace(/^([-+=])/, '\\$1')
    // A bare address would become a link.
    .replace(/(https?|ftp|mailto|www)(?=[:.])/gi, '$1\u200B');

const words = (text: Words): string =>
  typeof text === 'string'
    ? unmarked(text)
    : text
        .map((run) =>
          typeof run === 'string'
            ? unmarked(run)
            : 'strong' in run
              ? `**${unmarked(run.strong)}**`
              : ` [${run.note}]`,
        )
        .join('');

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [row(head), row(head.map(() => '---')), ...rows.map(row)].join('\n');

/** A picture in letters where it has any, else in words. */
const drawing = (picture: Picture): string =>
  [
    `**${unmarked(picture.title)}**`,
    ...(picture.plain.length === 0 ? [] : [`\`\`\`text\n${picture.plain.join('\n')}\n\`\`\``]),
    ...(picture.plain.length === 0
      ? [unmarked(picture.description)]
      : [picture.key.map(({ mark, words: said }) => `- ${unmarked(mark)} ${unmarked(said)}`).join('\n')]),
  ].join('\n\n');

/** Every kind of block as CommonMark with tables. */
const RENDERERS: { readonly [Kind in Block['kind']]: (block: Of<Kind>) => string } = {
  paragraph: ({ text }) => words(text),
  subheading: ({ text }) => `### ${unmarked(text)}`,
  list: ({ items, ordered }) =>
    items.map((item, index) => `${ordered === true ? `${index + 1}.` : '-'} ${words(item)}`).join('\n'),
  facts: ({ rows }) => rows.map(({ name, text }) => `- **${unmarked(name)}:** ${words(text)}`).join('\n'),
  table: ({ caption, columns, rows }) =>
    `**${unmarked(caption)}**\n\n${table(
      columns.map(unmarked),
      rows.map(({ name, cells }) => [unmarked(name), ...cells.map(unmarked)]),
    )}`,
  compare: ({ options, rows }) =>
    table(
      ['', ...options.map(unmarked)],
      rows.map(({ name, cells }) => [
        `**${unmarked(name)}**`,
        ...cells.map((parts) => parts.map(words).join(' ')),
      ]),
    ),
  picture: ({ picture }) => drawing(picture),
  pictures: ({ pictures }) => pictures.map(drawing).join('\n\n'),
  photo: ({ caption }) => `*${unmarked(caption)}*`,
  choices: ({ question, options, lines = 0 }) =>
    [
      `**${unmarked(question)}**`,
      options.map((option) => `- [ ] ${words(option)}`).join('\n'),
      ...Array.from({ length: lines }, () => '\\_'.repeat(40)),
    ].join('\n\n'),
  signatures: ({ labels }) => labels.map((label) => `${'\\_'.repeat(30)} ${unmarked(label)}`).join('\n\n'),
  address: ({ lines }) => lines.map(unmarked).join('  \n'),
};

const render = <Kind extends Block['kind']>(block: Of<Kind>): string =>
  (RENDERERS[block.kind] as (block: Of<Kind>) => string)(block);

/** The same document as Markdown; its pictures in letters or in words. */
export function toMarkdown(sheet: Sheet): string {
  const parts = [
    ...(sheet.studio === undefined ? [] : [`**${unmarked(sheet.studio)}**`]),
    ...(sheet.contact === undefined ? [] : [unmarked(sheet.contact)]),
    `# ${unmarked(sheet.title)}`,
    sheet.particulars.map(({ name, text }) => `- ${unmarked(name)}: ${unmarked(text)}`).join('\n'),
    ...sheet.sections.flatMap(({ title, blocks }) => [
      ...(title === undefined ? [] : [`## ${unmarked(title)}`]),
      ...blocks.map(render),
    ]),
    `---\n\n${unmarked(sheet.foot)}`,
  ];
  return `${parts.join('\n\n')}\n`;
}
