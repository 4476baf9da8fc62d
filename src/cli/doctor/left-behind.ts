import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { DISK } from '../../casebook/disk.ts';
import { isAbandoned } from '../../casebook/lock.ts';
import { readTempName } from '../../casebook/temp.ts';
import { relativeName } from '../studio.ts';
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
