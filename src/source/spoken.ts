/** "a, b or c". */
export const oneOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

/** A value as a message may quote it: short, on one line. */
export const quoted = (value: unknown): string => {
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of lines';
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  const text = String(value).replace(/\s+/g, ' ').trim();
  return `"${text.length > 40 ? `${text.slice(0, 39)}…` : text}"`;
};

/** The text of a single value; nothing for a map or a list, which has none (and which `String` may refuse). */
export const textOf = (value: unknown): string =>
  typeof value === 'object' && value !== null ? '' : String(value);
