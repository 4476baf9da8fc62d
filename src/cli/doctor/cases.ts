import { basename } from 'node:path';
import { DISK } from '../../casebook/disk.ts';
import { versionsOf } from '../../casebook/history.ts';
import { loadText } from '../../casebook/load-text.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import { caseFiles } from '../case-files.ts';
import { openCase } from '../open-case.ts';
import { relativeName } from '../studio.ts';
import { type Examination, type Found, faultIn, type Patient } from './fault.ts';

const nameOf = (path: string): string => basename(path).replace(/\.ya?ml$/i, '');

/** Cases that do not read, are called other than their files, or stand twice. */
export const unreadableCases: Examination = async (patient) => {
  const { cases } = await caseFiles(patient.casesFolder);
  const found: Found[] = [];
  for (const path of cases) found.push(...(await readingOf(path, patient)));
  const names = cases.map(nameOf);
  for (const [index, path] of cases.entries()) {
    if (names.indexOf(nameOf(path)) === index) continue;
    found.push({
      kind: 'case-twice',
      severity: 'fault',
      file: relativeName(path),
      what: `there are two files for the case ${nameOf(path)}`,
      cure: 'Compare the two, keep one and give the other another name.',
    });
  }
  return found;
};

async function readingOf(path: string, { studio }: Patient): Promise<Found[]> {
  try {
    if (studio !== undefined) await openCase(path, studio);
    else {
      const read = readYaml(relativeName(path), await loadText(path));
      if ('problems' in read) throw new ProblemError(read.problems);
    }
    return [];
  } catch (error) {
    // One case the program stumbles over must not hide the others.
    const problems =
      error instanceof ProblemError
        ? error.problems.filter(({ severity }) => severity === 'error')
        : [{ code: 'internal' as const, severity: 'error' as const, what: faultIn(error) }];
    const [first] = problems;
    return first === undefined ? [] : [await fault(path, first, problems.length)];
  }
}

async function fault(path: string, first: Problem, count: number): Promise<Found> {
  const { place } = first;
  const last = (await versionsOf(path, DISK).catch(() => [])).at(-1);
  const more = count > 1 ? ` (and ${count - 1} more)` : '';
  const look = `Run "mendwise decide ${nameOf(path)}" to see it all and how to mend it`;
  const cure =
    last === undefined
      ? `${look}.`
      : `${look}, or bring back an earlier version: "mendwise restore ${nameOf(path)}".`;
  return {
    kind: first.code === 'case-name' ? 'case-name' : 'unreadable-case',
    severity: 'fault',
    file: relativeName(path),
    what: `${place === undefined ? '' : `line ${place.line}: `}${first.what}${more}`,
    cure: first.code === 'case-name' ? `Rename the file to match, or correct the line "case:".` : cure,
  };
}
