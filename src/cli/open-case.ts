import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/validators.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Source } from '../source/source.ts';
import { relativeName, type Studio } from './studio.ts';

export interface OpenCase {
  readonly path: string;
  readonly case: QuiltCase;
  readonly source: Source;
  /** Warnings; errors are thrown. */
  readonly warnings: readonly Problem[];
}

/** A case is named by its file, or by its name in the studio's cases folder. */
export function casePath(name: string, studio: Pick<Studio, 'casesFolder'>): string {
  const asGiven = resolve(name);
  if (existsSync(asGiven) || /[/\\]|\.ya?ml$/.test(name)) return asGiven;
  return join(studio.casesFolder, `${name}.yaml`);
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
