import { createHash } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { loadText } from '../../casebook/load-text.ts';
import { relativeName } from '../studio.ts';
import type { Examination } from './fault.ts';

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
