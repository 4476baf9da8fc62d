import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { HazardLook } from '../casebook/model.ts';
import { hazardLookIn } from '../casebook/second-survey.ts';
import { findingReader } from '../findings/read-answer.ts';
import { ProblemError } from '../problems/problem.ts';
import { loadText } from './load-text.ts';
import { relativeName, type Studio } from './studio.ts';

/** `CASE.HELPER.yaml`, as casebook/second-survey.ts names it; an interview broken off has its own ending. */
const SECOND = /^([^.]+)\.([^.]+)\.ya?ml$/i;

/** Paths of second surveys in a folder, by the case they are of. A folder that is not there holds none. */
export const secondSurveyFiles = async (folder: string): Promise<ReadonlyMap<string, readonly string[]>> => {
  const found = new Map<string, string[]>();
  for (const name of (await readdir(folder).catch(() => [])).sort()) {
    const [, of, helper] = SECOND.exec(name) ?? [];
    if (of === undefined || helper === 'draft') continue;
    found.set(of, [...(found.get(of) ?? []), join(folder, name)]);
  }
  return found;
};

/** What others state of hazards, in surveys of their own: one that does not read could hide one, so it is an error. */
export async function hazardLooks(files: readonly string[], studio: Studio): Promise<readonly HazardLook[]> {
  const looks: HazardLook[] = [];
  for (const file of files) {
    const read = hazardLookIn(
      relativeName(file),
      await loadText(file),
      findingReader(studio.knowledge.vocabulary),
    );
    if ('problems' in read) throw new ProblemError(read.problems);
    looks.push(read.look);
  }
  return looks;
}
