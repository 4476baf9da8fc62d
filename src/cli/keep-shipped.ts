import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { printProblems } from '../problems/print.ts';
import { ProblemError } from '../problems/problem.ts';
import { keepKnowledge } from '../rulebook/kept/knowledge.ts';
import { readKnowledgeFiles } from '../rulebook/knowledge.ts';
import { KNOWLEDGE_FILES } from '../rulebook/knowledge-files.ts';
import { joinedTexts, plainJson, SHIPPED_RULES } from './shipped-rules.ts';

// Run by the build: reads and checks the shipped rules once for everybody.
const [, , rules = 'rules', outdir = 'dist'] = process.argv;

async function keepShipped(): Promise<void> {
  const texts = await Promise.all(KNOWLEDGE_FILES.map((name) => readFile(join(rules, name))));
  const files = KNOWLEDGE_FILES.map((file, i) => ({ file, text: texts[i]?.toString('utf8') ?? '' }));
  const knowledge = readKnowledgeFiles(files);
  await writeFile(join(outdir, SHIPPED_RULES.kept), plainJson(keepKnowledge(knowledge, files)));
  await writeFile(join(outdir, SHIPPED_RULES.texts), joinedTexts(texts));
}

keepShipped().catch((error: unknown) => {
  if (!(error instanceof ProblemError)) throw error;
  process.stderr.write(`${printProblems(error.problems)}\nThe shipped rules do not read.\n`);
  process.exitCode = 1;
});
