import { loadText } from '../casebook/load-text.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/validators.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Source } from '../source/source.ts';
import { casePath } from './case-path.ts';
import { relativeName, type Studio } from './studio.ts';

export interface OpenCase {
  readonly path: string;
  readonly case: QuiltCase;
  readonly source: Source;
  /** Warnings; errors are thrown. */
  readonly warnings: readonly Problem[];
}

/** Reads a case; throws ProblemError with everything wrong in it. */
export async function openCase(name: string, studio: Studio): Promise<OpenCase> {
  const path = casePath(name, studio);
  return openText(path, await loadText(path), studio);
}

/** The same from a text that was loaded before. */
export function openText(path: string, text: string, studio: Studio): OpenCase {
  const reading = readCase(relativeName(path), text, findingReader(studio.knowledge.vocabulary));
  if (reading.case === undefined || reading.source === undefined) throw new ProblemError(reading.problems);
  return { path, case: reading.case, source: reading.source, warnings: reading.problems };
}
