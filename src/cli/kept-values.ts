import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { keepText } from './keep-text.ts';
import { type Kind, keptPath } from './kept-files.ts';

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** The text of a kept file: key and digest on the first line, so that nothing cut short or meant for others is used. */
export const keptText = (key: string, kept: unknown): string => {
  const body = JSON.stringify(kept);
  return `${key} ${sha256(body)}\n${body}`;
};

/** What a kept text holds, or nothing where it is not whole or not for this key. */
export const readKept = <T>(text: string, key: string): T | undefined => {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${key} ${sha256(body)}`) return undefined;
  // The digest says that this is what keptText wrote.
  return JSON.parse(body) as T;
};

/** What is kept of a kind under a name and key; nothing where it is not there, not whole or not for this key. */
export const findInCache = <T>(kind: Kind, name: string, key: string): Promise<T | undefined> =>
  readFile(keptPath(kind, name), 'utf8').then(
    (text) => readKept<T>(text, key),
    () => undefined,
  );

/** Keeps a value for the next start. */
export const keepInCache = (kind: Kind, name: string, key: string, value: unknown): Promise<void> =>
  keepText(kind, keptPath(kind, name), keptText(key, value));
