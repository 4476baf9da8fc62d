import { readdir } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

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

/** Whether anybody else has surveyed the case in this file. */
export const hasOtherSurveys = async (path: string): Promise<boolean> =>
  (await secondSurveyFiles(dirname(path))).has(basename(path).replace(/\.ya?ml$/i, ''));
