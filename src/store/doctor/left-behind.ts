import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import { caseFiles, DRAFT_ENDING } from '../case-files.ts';
import { DISK } from '../disk.ts';
import { loadText } from '../load-text.ts';
import { relativeName } from '../studio.ts';
import { isAbandoned, readTempName } from '../temp.ts';
import type { Examination, Found, Patient } from './fault.ts';

/** Half-written temps and locks in every folder the program writes to. */
export const leftBehind: Examination = async (patient) => {
  const found: Found[] = [];
  for (const folder of folders(patient)) {
    for (const name of (await readdir(folder).catch(() => [])).sort()) {
      found.push(...(await temp(folder, name)), ...(await lock(folder, name)));
    }
  }
  return found;
};

const folders = ({ folder, casesFolder, rulesFolder }: Patient): string[] => [
  folder,
  casesFolder,
  join(casesFolder, '.records'),
  rulesFolder,
  join(rulesFolder, 'stages'),
];

async function temp(folder: string, name: string): Promise<Found[]> {
  const read = readTempName(name);
  const path = join(folder, name);
  if (read === undefined || !(await isAbandoned(path, read.by, DISK))) return [];
  return [
    {
      kind: 'orphan-temp',
      severity: 'fault',
      file: relativeName(path),
      what: `a half-written copy of ${read.of} was left by a program that was killed; ${read.of} itself is whole`,
      cure: 'It can be set aside: "mendwise doctor --mend" does it, and so does the next write to that file.',
      setAside: true,
    },
  ];
}

async function lock(folder: string, name: string): Promise<Found[]> {
  const [, of] = /^\.(.+)\.lock$/.exec(name) ?? [];
  if (of === undefined) return [];
  const path = join(folder, name);
  const file = relativeName(path);
  const holder = await DISK.readFile(path, 'utf8').catch(() => '');
  if (await isAbandoned(path, holder, DISK)) {
    return [
      {
        kind: 'stale-lock',
        severity: 'fault',
        file,
        what: `${of} is still marked as being written, by a program that no longer runs`,
        cure: 'It can be set aside: "mendwise doctor --mend" does it, and so does the next write to that file.',
        setAside: true,
      },
    ];
  }
  const [, machine] = /^(.+)\.\d+$/.exec(holder) ?? [];
  return [
    {
      kind: 'lock',
      severity: 'note',
      file,
      what: `${of} is marked as being written${machine === undefined ? '' : ` from ${machine}`}`,
      cure: 'Wait a moment. If nobody is writing it, remove this file.',
    },
  ];
}

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
