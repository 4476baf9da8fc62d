import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { KeptKnowledge } from '../rulebook/kept/knowledge.ts';
import type { TextFile } from '../rulebook/knowledge.ts';
import { findJson } from './kept-files.ts';

/** Beside the program lie the shipped rules, as they were read when it was built, and the texts they were read from. */
export const SHIPPED_RULES = { kept: 'rules.json', texts: 'rules.txt' } as const;

/** Texts one after the other; a zero byte, which no text file holds, between them. */
export const joinedTexts = (files: readonly TextFile[]): string => files.map(({ text }) => text).join('\0');

/**
 * The shipped rules as read before, where these files hold the very same texts; nothing where they differ by a letter.
 * Texts are compared as they are: on most starts they are the same, and that is quicker than a digest.
 */
export async function findShipped(
  files: readonly TextFile[],
  folder: string = dirname(fileURLToPath(import.meta.url)),
): Promise<KeptKnowledge | undefined> {
  const texts = await readFile(join(folder, SHIPPED_RULES.texts), 'utf8').catch(() => undefined);
  return texts === joinedTexts(files) ? findJson(join(folder, SHIPPED_RULES.kept), isKept) : undefined;
}

/** The build wrote this beside the program it built; what is whole is what it wrote. */
const isKept = (found: unknown): found is KeptKnowledge =>
  typeof found === 'object' && found !== null && 'rulebook' in found && 'vocabulary' in found;
