import { readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { KeptKnowledge } from '../rulebook/kept/knowledge.ts';
import type { TextFile } from '../rulebook/knowledge.ts';

/** Beside the program lie the shipped rules, as they were read when it was built, and the texts they were read from. */
export const SHIPPED_RULES = { kept: 'rules.json', texts: 'rules.txt' } as const;

const BETWEEN = Buffer.of(0);

/** Texts one after the other; a zero byte, which no text file holds, between them. */
export const joinedTexts = (texts: readonly Buffer[]): Buffer =>
  Buffer.concat(texts.flatMap((text) => [text, BETWEEN]));

/** JSON in ASCII alone, which is read and parsed in two thirds of the time. */
export const plainJson = (value: unknown): string =>
  JSON.stringify(value).replace(
    /[^\0-\x7f]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

/** The shipped rules as read before, and the files they were read from. */
export interface Shipped {
  readonly kept: KeptKnowledge;
  readonly files: readonly TextFile[];
}

/**
 * The shipped rules as read before, where the files at these paths hold the very same texts; nothing where they differ
 * by a letter, or cannot be read. Bytes are compared as they are: on most starts they are the same, and that is quicker
 * than a digest. They are turned into text only if somebody quotes them.
 */
export function findShipped(
  paths: readonly string[],
  nameOf: (path: string) => string,
  folder: string = dirname(fileURLToPath(import.meta.url)),
): Shipped | undefined {
  try {
    const texts = readFileSync(join(folder, SHIPPED_RULES.texts));
    // Something else than an ordinary file, such as a pipe, can be read but once: not here.
    if (!paths.every((path) => statSync(path).isFile())) return undefined;
    const found = paths.map((path) => readFileSync(path));
    if (!joinedTexts(found).equals(texts)) return undefined;
    const kept: unknown = JSON.parse(readFileSync(join(folder, SHIPPED_RULES.kept), 'latin1'));
    return isKept(kept) ? { kept, files: paths.map((path, i) => fileOf(nameOf(path), found[i])) } : undefined;
  } catch {
    return undefined;
  }
}

const fileOf = (file: string, bytes: Buffer | undefined): TextFile => ({
  file,
  get text() {
    return bytes?.toString('utf8') ?? '';
  },
});

/** The build wrote this beside the program it built; what is whole is what it wrote. */
const isKept = (found: unknown): found is KeptKnowledge =>
  typeof found === 'object' && found !== null && 'rulebook' in found && 'vocabulary' in found;
