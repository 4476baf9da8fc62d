import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { readYaml } from '../../source/read-yaml.ts';
import { faultOf, reasonOf } from '../disk.ts';
import { loadText } from '../load-text.ts';
import { HISTORY } from '../save-text.ts';
import { relativeName } from '../studio.ts';
import { type Examination, type Found, faultIn } from './fault.ts';

/** Former versions that could not be brought back, and cases of which only former versions are left. */
export const history: Examination = async ({ casesFolder }) => {
  const folder = join(casesFolder, HISTORY);
  const names = await readdir(folder).catch((error: unknown) => (faultOf(error) === 'ENOENT' ? [] : error));
  if (!Array.isArray(names)) return [noFolder(folder, names)];
  const found: Found[] = [];
  for (const name of names.filter((each) => /\.ya?ml$/i.test(each)).sort()) {
    found.push(...(await broken(join(folder, name))));
  }
  return [...found, ...lostCases(casesFolder, names)];
};

const noFolder = (folder: string, error: unknown): Found => ({
  kind: 'broken-history',
  severity: 'fault',
  file: relativeName(folder),
  what: `former versions cannot be kept: ${reasonOf(error)}`,
  cure: 'Move what lies there away, so that a folder of that name can be made; no case can be changed before.',
});

async function broken(path: string): Promise<Found[]> {
  const why = await flawOf(path);
  if (why === undefined) return [];
  return [
    {
      kind: 'broken-history',
      severity: 'fault',
      file: relativeName(path),
      what: `this former version cannot be brought back as it is: ${why}`,
      cure: 'The case itself is not affected. Look into the file; remove it where nothing in it is worth keeping.',
    },
  ];
}

/** Faults of YAML only: a version may have been kept just because it had something to mend. */
async function flawOf(path: string): Promise<string | undefined> {
  try {
    const read = readYaml(relativeName(path), await loadText(path));
    return 'problems' in read ? read.problems[0]?.what : undefined;
  } catch (error) {
    return faultIn(error);
  }
}

function lostCases(casesFolder: string, names: readonly string[]): Found[] {
  const stamped = /^([^.]+)\.\d{4}-\d\d-\d\dT[\d-]+(\.ya?ml)$/i;
  const files = new Set(
    names.flatMap((name) => {
      const [, of, ending] = stamped.exec(name) ?? [];
      return of === undefined ? [] : [`${of}${ending}`];
    }),
  );
  return [...files]
    .filter((file) => !existsSync(join(casesFolder, file)))
    .map((file) => ({
      kind: 'lost-case',
      severity: 'note',
      file: relativeName(join(casesFolder, file)),
      what: 'only former versions of this case are left',
      cure: `If it was not taken away on purpose: "mendwise restore ${file.replace(/\.ya?ml$/i, '')}" lists them.`,
    }));
}

/** Snapshots of rules and cases that recorded decisions were made from: their names are the digests of what is in them. */
export const records: Examination = async ({ casesFolder }) => {
  const folder = join(casesFolder, '.records');
  const names = (await readdir(folder).catch(() => [])).sort();
  const checked = await Promise.all(
    names.map(async (name) => {
      const [, kind, digest] = /^(case|rules)-([0-9a-f]{16})\.(?:yaml|json)$/.exec(name) ?? [];
      if (kind === undefined || digest === undefined) return [];
      const text = await loadText(join(folder, name)).catch(() => '');
      const kept = kind === 'case' ? text : rulesIn(text);
      return createHash('sha256').update(kept).digest('hex').startsWith(digest) ? [] : [name];
    }),
  );
  return checked.flat().map((name) => ({
    kind: 'altered-record',
    severity: 'fault',
    file: relativeName(join(folder, name)),
    what: 'what a decision was made from has been altered, so that decision cannot be made again',
    cure: 'Bring this file back from a backup. The case and its later decisions are not affected.',
  }));
};

/** The texts of a rulebook as its digest is taken from them; nothing where the snapshot does not read. */
function rulesIn(text: string): string {
  try {
    const texts: unknown = JSON.parse(text);
    if (typeof texts !== 'object' || texts === null) return '';
    return Object.values(texts).sort().join('\u0000');
  } catch {
    return '';
  }
}
