import type { Sheet } from '../model.ts';
import { toHtml } from './html.tsx';
import { toMarkdown } from './markdown.ts';
import { toText } from './text.ts';

/** The formats a document can be written in, by the name asked for. */
export const FORMATS = { html: toHtml, markdown: toMarkdown, text: toText } as const satisfies Readonly<
  Record<string, (sheet: Sheet) => string>
>;
export type Format = keyof typeof FORMATS;
