import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import { BUILD, type Kind, keptPath } from './kept-files.ts';
import { relativeName, type Studio } from './studio.ts';

/** Cases kept as they were read, in the system's cache folder. */
export const CASES: Kind = { prefix: 'case-', most: 100 };

/** A reading hangs on the text, its name, the vocabulary and the program, and on nothing else. */
export interface KeptCase {
  readonly readBy: readonly string[];
  readonly text: string;
  readonly case: QuiltCase;
}

/** A case as it was read before from the very same text. Anything odd about it, or about what is kept, is left to the reading. */
export function findKept(path: string, studio: Studio): KeptCase | undefined {
  if (BUILD === undefined) return undefined;
  try {
    const by = readBy(path, studio);
    // Something else than an ordinary file, such as a pipe, can be read but once: not here.
    const about = statSync(path);
    if (!about.isFile()) return undefined;
    const kept: unknown = JSON.parse(readFileSync(keptCasePath(path, about.size), 'utf8'));
    if (!isKept(kept) || !by.every((each, i) => each === kept.readBy[i])) return undefined;
    return Buffer.from(kept.text).equals(readFileSync(path)) ? kept : undefined;
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
