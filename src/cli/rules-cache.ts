import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findKnowledge, type KeptKnowledge, keepKnowledge } from '../rulebook/kept/knowledge.ts';
import type { Knowledge, TextFile } from '../rulebook/knowledge.ts';
import { BUILD, findInCache, findKept, type Kind, keepInCache, sha256 } from './kept-files.ts';

/** Sets of rules kept in the system's cache folder. */
const RULES: Kind = { prefix: 'rules-', most: 8 };
const SHIPPED_NAME = 'rules.json';

/** What the rules kept were made from: every name and text, and the program that read them. */
export const keyOf = (files: readonly TextFile[], names: readonly string[], build: string): string =>
  sha256(JSON.stringify([build, names, files.map(({ text }) => text)]));

/**
 * Rules read before from the very same texts by the very same program, or read now by `read` and kept for the next
 * start. Shipped rules lie beside the program; a studio's own in the system's cache folder.
 */
export async function throughCache(
  files: readonly TextFile[],
  names: readonly string[],
  read: () => Promise<Knowledge>,
): Promise<Knowledge> {
  if (BUILD === undefined) return read();
  const key = keyOf(files, names, BUILD);
  const name = key.slice(0, 32);
  const shipped = join(dirname(fileURLToPath(import.meta.url)), SHIPPED_NAME);
  const kept =
    (await findKept<KeptKnowledge>(shipped, key)) ?? (await findInCache<KeptKnowledge>(RULES, name, key));
  if (kept !== undefined) return findKnowledge(kept, files);
  const knowledge = await read();
  await keepInCache(RULES, name, key, keepKnowledge(knowledge, files));
  return knowledge;
}
