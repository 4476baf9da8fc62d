import { basename } from 'node:path';
import type { QuiltCase } from '../../casebook/model.ts';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import { caseFiles } from '../case-files.ts';
import { openCase } from '../case-store.ts';
import { DISK } from '../disk.ts';
import { loadText } from '../load-text.ts';
import { versionsOf } from '../save-text.ts';
import { relativeName, type Studio } from '../studio.ts';
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

/** Cases whose answer is no longer what they expect. */
export const expectations: Examination = async ({ casesFolder, studio, asOf }) => {
  if (studio === undefined) return [];
  const found: Found[] = [];
  for (const path of (await caseFiles(casesFolder)).cases) {
    // Cases that do not read are told of elsewhere.
    const opened = await openCase(path, studio).catch(() => undefined);
    if (opened?.case.expect === undefined) continue;
    const wrong = await wrongIn(opened.case, studio, asOf);
    if (wrong.length === 0) continue;
    found.push({
      kind: 'expectation',
      severity: 'fault',
      file: relativeName(path),
      what: `the answer is not what the case expects: ${wrong.join('; ')}`,
      cure: 'See which rule or figure changed ("mendwise rules show RULE"); then correct the rule, or what is expected.',
    });
  }
  return found;
};

/** What differs from what a case expects; that nothing could be decided is a difference too. */
async function wrongIn(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<string[]> {
  try {
    const { answer } = await decide(quiltCase, contextOf(studio, asOf));
    return differences(quiltCase.expect ?? {}, answer).map(({ what }) => what);
  } catch (error) {
    return [`nothing could be decided (${faultIn(error)})`];
  }
}
