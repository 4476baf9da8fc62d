import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import { casePath } from './case-path.ts';
import { BUILD, type Kind, keptPath } from './kept-files.ts';
import type { OpenCase } from './open-case.ts';
import { relativeName, type Studio } from './studio.ts';

/** Cases kept as they were read, in the system's cache folder. */
export const CASES: Kind = { prefix: 'case-', most: 100 };

/** A case to look at, not to write to. */
export type CaseAtHand = Pick<OpenCase, 'path' | 'case' | 'warnings'>;

/** A reading hangs on the text, its name, the vocabulary and the program, and on nothing else. */
export interface KeptCase {
  readonly readBy: readonly string[];
  readonly text: string;
  readonly case: QuiltCase;
}

/**
 * A case as it was read before from the very same text, or read now and kept for the next start. Reading YAML and
 * checking it takes a third of a quick decision. Throws ProblemError with everything wrong in it; a case with warnings
 * is not kept, so that they are given each time.
 */
export async function caseAtHand(name: string, studio: Studio): Promise<CaseAtHand> {
  const path = casePath(name, studio);
  const kept = BUILD === undefined ? undefined : findKept(path, readBy(path, studio));
  if (kept !== undefined) return { path, case: kept.case, warnings: [] };
  const { readAndKeep } = await import('./keep-case.ts');
  return readAndKeep(path, studio);
}

/** Anything odd about the file, or about what is kept, is left to the reading. */
function findKept(path: string, by: readonly string[]): KeptCase | undefined {
  try {
    // Something else than an ordinary file, such as a pipe, can be read but once: not here.
    if (!statSync(path).isFile()) return undefined;
    const bytes = readFileSync(path);
    const kept: unknown = JSON.parse(readFileSync(keptCasePath(path, bytes.length), 'utf8'));
    if (!isKept(kept) || !by.every((each, i) => each === kept.readBy[i])) return undefined;
    return Buffer.from(kept.text).equals(bytes) ? kept : undefined;
  } catch {
    return undefined;
  }
}

export const readBy = (path: string, { knowledge }: Studio): readonly string[] => [
  BUILD ?? '',
  knowledge.rulebook.digest,
  relativeName(path),
];

/** Two cases under one name push each other out, and are never mistaken for each other: texts are compared whole. */
export const keptCasePath = (path: string, bytes: number): string => {
  const name = basename(path).replace(/[^\w-]+/g, '_');
  return keptPath(CASES, `${name.slice(0, 80)}-${bytes}`);
};

const isKept = (kept: unknown): kept is KeptCase =>
  typeof kept === 'object' &&
  kept !== null &&
  'readBy' in kept &&
  Array.isArray(kept.readBy) &&
  'text' in kept &&
  typeof kept.text === 'string' &&
  'case' in kept &&
  typeof kept.case === 'object' &&
  kept.case !== null;
