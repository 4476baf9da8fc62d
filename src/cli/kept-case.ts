import { basename } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { casePath } from './case-path.ts';
import { BUILD, findJson, type Kind, keepText, keptPath } from './kept-files.ts';
import type { OpenCase } from './open-case.ts';
import { relativeName, type Studio } from './studio.ts';

/** Cases kept as they were read, in the system's cache folder. */
const CASES: Kind = { prefix: 'case-', most: 100 };

/** A case to look at, not to write to. */
export type CaseAtHand = Pick<OpenCase, 'path' | 'case' | 'warnings'>;

/** A reading hangs on the text, its name, the vocabulary and the program, and on nothing else. */
interface KeptCase {
  readonly from: readonly string[];
  readonly case: QuiltCase;
}

/**
 * A case as it was read before from the very same text, or read now and kept for the next start. Reading YAML and
 * checking it takes a third of a quick decision. Throws ProblemError with everything wrong in it; a case with warnings
 * is not kept, so that they are given each time.
 */
export async function caseAtHand(name: string, studio: Studio): Promise<CaseAtHand> {
  const path = casePath(name, studio);
  const text = await loadText(path);
  const from = [BUILD ?? '', studio.knowledge.rulebook.digest, relativeName(path), text];
  const keptName = nameFor(path, text);
  const kept = BUILD === undefined ? undefined : await findJson(keptPath(CASES, keptName), isKept);
  if (kept !== undefined && from.every((each, i) => each === kept.from[i]))
    return { path, case: kept.case, warnings: [] };
  const { openText } = await import('./open-case.ts');
  const opened = openText(path, text, studio);
  if (BUILD !== undefined && opened.warnings.length === 0) {
    const keep: KeptCase = { from, case: opened.case };
    await keepText(CASES, keptName, JSON.stringify(keep));
  }
  return opened;
}

/** Two cases under one name push each other out, and are never mistaken for each other: texts are compared whole. */
const nameFor = (path: string, text: string): string =>
  `${basename(path)
    .replace(/[^\w-]+/g, '_')
    .slice(0, 80)}-${text.length}`;

const isKept = (kept: unknown): kept is KeptCase =>
  typeof kept === 'object' &&
  kept !== null &&
  'from' in kept &&
  Array.isArray(kept.from) &&
  'case' in kept &&
  typeof kept.case === 'object';
