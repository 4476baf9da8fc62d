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
