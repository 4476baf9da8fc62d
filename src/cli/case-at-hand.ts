import { casePath } from './case-path.ts';
import { findKept } from './kept-case.ts';
import type { OpenCase } from './open-case.ts';
import type { Studio } from './studio.ts';

/** A case to look at, not to write to. */
export type CaseAtHand = Pick<OpenCase, 'path' | 'case' | 'warnings'>;

/**
 * A case as it was read before from the very same text, or read now and kept for the next start. Reading YAML and
 * checking it takes a third of a quick decision. Throws ProblemError with everything wrong in it; a case with warnings
 * is not kept, so that they are given each time.
 */
export async function caseAtHand(name: string, studio: Studio): Promise<CaseAtHand> {
  const path = casePath(name, studio);
  const kept = findKept(path, studio);
  if (kept !== undefined) return { path, case: kept.case, warnings: [] };
  const { readAndKeep } = await import('./keep-case.ts');
  return readAndKeep(path, studio);
}
