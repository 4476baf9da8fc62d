import { loadText } from '../casebook/load-text.ts';
import { findKnowledge, type KeptKnowledge, keepKnowledge } from '../rulebook/kept/knowledge.ts';
import { type Knowledge, readKnowledgeFiles, type TextFile } from '../rulebook/knowledge.ts';
import { KNOWLEDGE_FILES } from '../rulebook/knowledge-files.ts';
import { BUILD, type Kind } from './kept-files.ts';
import { findInCache, keepInCache, sha256 } from './kept-values.ts';

/** Sets of rules kept in the system's cache folder. */
const RULES: Kind = { prefix: 'rules-', most: 8 };

/** What the rules kept were made from: every name and text, and the program that read them. */
export const keyOf = (files: readonly TextFile[], names: readonly string[], build: string): string =>
  sha256(JSON.stringify([build, names, files.map(({ text }) => text)]));

/**
 * A studio's own rules: read before from the very same texts by the very same program, or read now and kept in the
 * system's cache folder for the next start. `paths` are those of KNOWLEDGE_FILES.
 */
export async function throughCache(
  paths: readonly string[],
  nameOf: (path: string) => string,
): Promise<Knowledge> {
  const loading = paths.map(
    async (path): Promise<TextFile> => ({ file: nameOf(path), text: await loadText(path) }),
  );
  // All at once; where several cannot be read, the first in order is the one reported.
  const files: TextFile[] = [];
  await Promise.allSettled(loading);
  for (const each of loading) files.push(await each);
  if (BUILD === undefined) return readKnowledgeFiles(files);
  const key = keyOf(files, KNOWLEDGE_FILES, BUILD);
  const name = key.slice(0, 32);
  const kept = await findInCache<KeptKnowledge>(RULES, name, key);
  if (kept !== undefined) return findKnowledge(kept, files);
  const knowledge = readKnowledgeFiles(files);
  await keepInCache(RULES, name, key, keepKnowledge(knowledge, files));
  return knowledge;
}
