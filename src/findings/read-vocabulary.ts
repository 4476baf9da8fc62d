import { ProblemError } from '../problems/problem.ts';
import { readYaml } from '../source/read-yaml.ts';
import { zodProblems } from '../source/zod-problems.ts';
import { buildVocabulary } from './build-vocabulary.ts';
import { vocabularyProblems } from './check-vocabulary.ts';
import type { Vocabulary } from './vocabulary.ts';
import { vocabularyFile } from './vocabulary-file.ts';

/**
 * The vocabulary from the text of rules/findings.yaml; `file` is its name for messages.
 * Throws ProblemError with every slip found: first of the YAML, then of the shape, then of what the names refer to.
 */
export const readVocabulary = (file: string, text: string): Vocabulary => {
  const reading = readYaml(file, text);
  if ('problems' in reading) throw new ProblemError(reading.problems);
  const parsed = vocabularyFile.safeParse(reading.source.value);
  if (!parsed.success)
    throw new ProblemError(zodProblems(parsed.error, reading.source, { schema: vocabularyFile }));
  const problems = vocabularyProblems(parsed.data, reading.source);
  if (problems.length > 0) throw new ProblemError(problems);
  return buildVocabulary(parsed.data);
};
