import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { loadText } from '../../casebook/load-text.ts';
import { ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import { caseFiles, DRAFT_ENDING } from '../case-files.ts';
import { relativeName } from '../studio.ts';
import type { Examination, Found } from './fault.ts';

/** Interviews that were broken off. */
export const drafts: Examination = async ({ casesFolder }) => {
  const found: Found[] = [];
  const { cases, drafts: names } = await caseFiles(casesFolder);
  for (const name of names) {
    const file = relativeName(join(casesFolder, `${name}${DRAFT_ENDING}`));
    const why = await flawOf(file);
    const command = cases.includes(join(casesFolder, `${name}.yaml`)) ? 'survey' : 'enquiry';
    found.push(
      why === undefined
        ? {
            kind: 'draft',
            severity: 'note',
            file,
            what: `an interview on ${name} is not finished`,
            cure: `Go on with "mendwise ${command} ${name}".`,
          }
        : {
            kind: 'unreadable-draft',
            severity: 'fault',
            file,
            what: `the answers of an interview on ${name} do not read: ${why}`,
            cure: 'Correct the line, or give the file another name and begin again.',
          },
    );
  }
  return [...found, ...(await keptBeside(casesFolder))];
};

/** Answers that were put beside a draft because another interview had written to it. Nobody finds them unless told. */
async function keptBeside(casesFolder: string): Promise<Found[]> {
  return (await readdir(casesFolder).catch(() => [])).sort().flatMap((file): Found[] => {
    const [, name] = /^(.+)\.draft\.yaml\.\d+\.kept$/.exec(file) ?? [];
    if (name === undefined) return [];
    return [
      {
        kind: 'kept-answers',
        severity: 'note',
        file: relativeName(join(casesFolder, file)),
        what: `answers of a second interview on ${name} were kept here, because another one was going on`,
        cure: 'Take what they add into the case by hand, then remove this file.',
      },
    ];
  });
}

async function flawOf(file: string): Promise<string | undefined> {
  try {
    const read = readYaml(file, await loadText(file));
    return 'problems' in read ? read.problems[0]?.what : undefined;
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    return error.problems[0]?.what;
  }
}
