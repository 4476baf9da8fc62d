import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { faultOf, reasonOf } from '../casebook/disk.ts';
import { secondSurveyOf } from '../casebook/second-survey.ts';
import { ProblemError } from '../problems/problem.ts';

/** What an interview has gathered so far stands beside the case under this ending. */
export const DRAFT_ENDING = '.draft.yaml';

export interface CaseFiles {
  /** Paths of case files, by name. */
  readonly cases: readonly string[];
  /** Names of cases with an interview that was broken off. */
  readonly drafts: readonly string[];
}

const nameOf = (file: string): string => file.replace(/\.ya?ml$/i, '');

/** The files of a cases folder. A folder that is not there holds none. */
export async function caseFiles(folder: string): Promise<CaseFiles> {
  const all = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    if (faultOf(error) === 'ENOENT') return [];
    throw new ProblemError([
      { code: 'cannot-read', severity: 'error', what: `${folder} cannot be read: ${reasonOf(error)}` },
    ]);
  });
  const files = all
    .filter((entry) => !entry.isDirectory() && !entry.name.startsWith('.') && /\.ya?ml$/i.test(entry.name))
    .map(({ name }) => name);
  const isDraft = (name: string): boolean => name.endsWith(DRAFT_ENDING);
  const byName = (a: string, b: string): number => (nameOf(a) < nameOf(b) ? -1 : 1);
  return {
    cases: files
      .filter((name) => !isDraft(name) && secondSurveyOf(name) === undefined)
      .sort(byName)
      .map((name) => join(folder, name)),
    drafts: files
      .filter(isDraft)
      .map((name) => name.slice(0, -DRAFT_ENDING.length))
      .sort(),
  };
}
