import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { KNOWLEDGE_FILES, type Knowledge, readKnowledgeFiles, type TextFile } from '../rulebook/knowledge.ts';
import { findKnowledge, type KeptKnowledge, keepKnowledge } from '../rulebook/serialize.ts';
import { BUILD, type CacheKind, deserialize, findInCache, keepInCache, sha256 } from './cache.ts';
import { loadText } from './load-text.ts';

/** Sets of rules in the cache: a studio has one, and tries another now and then. */
const RULES: CacheKind = { prefix: 'rules-', most: 8 };

/** Beside the built program lie the shipped rules as they were read when it was built. */
export const BUILT_RULES = 'rules.json';

/** Parsed rules depend on their texts and names and on the program that parses them. */
export const keyOf = (files: readonly TextFile[], build: string | undefined): string =>
  sha256(JSON.stringify([build, KNOWLEDGE_FILES, files.map(({ text }) => text)]));

/**
 * The rules in a folder, read and checked. Parsing YAML is the dearest part of a start, so what was read before from
 * the very same texts is taken from the cache. Throws ProblemError with everything wrong in them.
 */
export async function loadKnowledge(
  rulesFolder: string,
  nameOf: (path: string) => string,
): Promise<Knowledge> {
  const files: TextFile[] = [];
  for (const name of KNOWLEDGE_FILES) {
    const path = join(rulesFolder, name);
    files.push({ file: nameOf(path), text: await loadText(path) });
  }
  if (BUILD === undefined) return readKnowledgeFiles(files);
  const key = keyOf(files, BUILD);
  const kept = (await builtRules(key)) ?? (await findInCache<KeptKnowledge>(RULES, key));
  if (kept !== undefined) return findKnowledge(kept, files);
  const knowledge = readKnowledgeFiles(files);
  await keepInCache(RULES, key, keepKnowledge(knowledge, files));
  return knowledge;
}

/** The digest in the file covers all of it, so an altered one is passed over. */
async function builtRules(key: string): Promise<KeptKnowledge | undefined> {
  const folder = dirname(fileURLToPath(import.meta.url));
  for (const path of [join(folder, BUILT_RULES), join(folder, '..', BUILT_RULES)]) {
    const text = await readFile(path, 'utf8').catch(() => '');
    const kept = text.startsWith(key) ? deserialize<KeptKnowledge>(text, key) : undefined;
    if (kept !== undefined) return kept;
  }
  return undefined;
}
