import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { KeptKnowledge } from '../rulebook/kept/knowledge.ts';
import type { TextFile } from '../rulebook/knowledge.ts';

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
  const [texts, kept] = await Promise.all(
    [SHIPPED_RULES.texts, SHIPPED_RULES.kept].map((name) =>
      readFile(join(folder, name), 'utf8').catch(() => undefined),
    ),
  );
  if (texts === undefined || kept === undefined || texts !== joinedTexts(files)) return undefined;
  try {
    const found: unknown = JSON.parse(kept);
    return isKept(found) ? found : undefined;
  } catch {
    // Cut short by a full disk or an installation broken off: the rules are read from their texts.
    return undefined;
  }
}

/** The build wrote this beside the program it built; what is whole is what it wrote. */
const isKept = (found: unknown): found is KeptKnowledge =>
  typeof found === 'object' && found !== null && 'rulebook' in found && 'vocabulary' in found;
