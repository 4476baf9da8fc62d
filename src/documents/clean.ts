/** Signs that turn the direction of writing, or show nothing: a name may not rearrange the letter it stands in. */
const UNSEEN = /[\u00AD\u200B-\u200F\u202A-\u202E\u2060-\u2069\uFEFF]/g;

/** Line breaks, tabs and other controls become single blanks. */
const tidy = (text: string): string => text.replace(UNSEEN, '').replace(/[\s\p{Cc}]+/gu, ' ');

/** One line of text from a case, whatever was typed. */
export const clean = (text: string): string => tidy(text).trim();

/** Drawings and picture data hold no text of a case. */
const NOT_TEXT = new Set(['svg', 'swatch', 'data', 'plain']);

/** Every text in plain data made clean, so that no part of a document can forget to. */
export function cleaned<Data>(data: Data): Data;
export function cleaned(data: unknown): unknown {
  if (typeof data === 'string') return tidy(data);
  if (Array.isArray(data)) return data.map((each) => cleaned(each));
  if (data === null || typeof data !== 'object') return data;
  return Object.fromEntries(
    Object.entries(data).map(([name, inner]) => [name, NOT_TEXT.has(name) ? inner : cleaned(inner)]),
  );
}
