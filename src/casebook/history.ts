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
