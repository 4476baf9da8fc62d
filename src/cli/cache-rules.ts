import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { printProblems } from '../problems/print.ts';
import { ProblemError } from '../problems/problem.ts';
import { KNOWLEDGE_FILES, readKnowledgeFiles } from '../rulebook/knowledge.ts';
import { keepKnowledge } from '../rulebook/serialize.ts';
import { BUILD, serialize } from '../store/cache.ts';
import { BUILT_RULES, keyOf } from '../store/load-knowledge.ts';

// Run by the build: reads and checks the shipped rules once for everybody.
const [, , rules = 'rules', outdir = 'dist'] = process.argv;

async function cacheRules(): Promise<void> {
  const files = await Promise.all(
    KNOWLEDGE_FILES.map(async (file) => ({ file, text: await readFile(join(rules, file), 'utf8') })),
  );
  const knowledge = keepKnowledge(readKnowledgeFiles(files), files);
  await writeFile(join(outdir, BUILT_RULES), serialize(keyOf(files, BUILD), knowledge));
}

cacheRules().catch((error: unknown) => {
  if (!(error instanceof ProblemError)) throw error;
  process.stderr.write(`${printProblems(error.problems)}\nThe shipped rules do not read.\n`);
  process.exitCode = 1;
});
