import { join, parse } from 'node:path';
import { type Disk, faultOf } from './disk.ts';

/** The folder beside a case that keeps its former versions. */
export const HISTORY = '.history';

const MOST = 1000;

/**
 * Keeps the file as it stands under `.history/NAME.STAMP.EXT`, with a number where that name is taken. The stamp
 * comes from the caller, who has a clock. Returns the path of the kept version.
 */
export const keepVersion = async (path: string, stamp: string, disk: Disk): Promise<string> => {
  const { dir, name, ext } = parse(path);
  const folder = join(dir, HISTORY);
  await disk.mkdir(folder, { recursive: true });
  const safe = stamp.replace(/[^A-Za-z0-9._-]+/g, '-');
  for (let number = 1; number < MOST; number += 1) {
    const kept = join(folder, `${name}.${safe}${number === 1 ? '' : `-${number}`}${ext}`);
    try {
      // A second name for the same bytes: nothing is copied, so nothing can be cut short.
      await disk.link(path, kept);
      return kept;
    } catch (error) {
      if (faultOf(error) === 'EEXIST') continue;
      // Not every disk knows second names (memory sticks, some network drives).
      await disk.copyFile(path, kept, 1);
      return kept;
    }
  }
  throw new Error(`there are already ${MOST} versions with the stamp ${safe}`);
};

/** An earlier version of a file. */
export interface Version {
  /** When it was replaced, as the stamp says: 2026-03-05T10-15-00-123, with a number where two were kept at once. */
  readonly stamp: string;
  readonly path: string;
}

const STAMP = /^(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d[\d-]*|before(-\d+)?)$/;

/** The versions kept of a file, the oldest first; none where there is no history. Throws what the disk says. */
export const versionsOf = async (path: string, disk: Disk): Promise<Version[]> => {
  const { dir, name, ext } = parse(path);
  const folder = join(dir, HISTORY);
  const names = await disk.readdir(folder).catch((error: unknown) => {
    if (faultOf(error) === 'ENOENT') return [];
    throw error;
  });
  return (
    names
      .filter((each) => each.startsWith(`${name}.`) && each.endsWith(ext))
      .map((each) => ({
        stamp: each.slice(name.length + 1, each.length - ext.length),
        path: join(folder, each),
      }))
      // A case's history lies beside that of its second surveys, whose names go on with a dot.
      .filter(({ stamp }) => STAMP.test(stamp))
      .sort((a, b) => a.stamp.localeCompare(b.stamp, 'en', { numeric: true }))
  );
};
