import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type Disk, faultOf } from './disk.ts';

let made = 0;

/** A temp name no other writer uses, in the folder of the file it will become: only there is a rename atomic. */
export const tempName = (folder: string, name: string): string => {
  made += 1;
  return join(folder, `.${name}.${made}.${owner()}.tmp`);
};

/** Who wrote a temp, from what its name says after the name of the file. */
const writerOf = (rest: string): string | undefined => /^\d+\.(.+)\.tmp$/.exec(rest)?.[1];

/** What a name says of the temp it belongs to: the file it would have become, and who wrote it. */
export const readTempName = (name: string): { readonly of: string; readonly by: string } | undefined => {
  const [, of, by] = /^\.(.+\.[A-Za-z]+)\.\d+\.([^.]+\.\d+)\.tmp$/.exec(name) ?? [];
  return of === undefined || by === undefined ? undefined : { of, by };
};

/** Removes temps left behind by processes of this machine that were killed while writing. Never fails. */
export const sweepTemps = async (folder: string, name: string, disk: Disk): Promise<void> => {
  const there = await disk.readdir(folder).catch(() => []);
  for (const each of there) {
    if (!each.startsWith(`.${name}.`) || !each.endsWith('.tmp')) continue;
    const path = join(folder, each);
    const written = writerOf(each.slice(name.length + 2));
    if (written !== undefined && (await isAbandoned(path, written, disk)))
      await disk.unlink(path).catch(() => undefined);
  }
};

/** Writes a file and waits until the disk has it. Throws what the disk says, or where it took less than it was given. */
export const writeFully = async (path: string, text: string, mode: number, disk: Disk): Promise<void> => {
  await disk.writeFile(path, text, { flag: 'wx', mode });
  const { size } = await disk.stat(path);
  if (size !== Buffer.byteLength(text)) throw new Error('the disk took only a part of the text');
  const file = await disk.open(path, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
};

/** Makes a rename last through a power cut, where the system can do that for a folder. */
export const syncFolder = async (folder: string, disk: Disk): Promise<void> => {
  try {
    const handle = await disk.open(folder, 'r');
    await handle.sync().finally(() => handle.close());
  } catch {
    // Some systems cannot; the file itself is already safe.
  }
};

/** Names this machine and process, so that what a dead process left behind can be told from what a live one holds. */
const owner = (): string => `${hostname().replace(/[^A-Za-z0-9-]/g, '-')}.${process.pid}`;

/** Whether a lock or temp was left by a process of this machine that no longer runs. */
const isOrphan = (written: string): boolean => {
  const [, host, pid] = /^(.*)\.(\d+)$/.exec(written) ?? [];
  if (host === undefined || `${host}.${process.pid}` !== owner()) return false;
  try {
    process.kill(Number(pid), 0);
    return false;
  } catch (error) {
    return faultOf(error) === 'ESRCH';
  }
};

/** A writer holds its lock for a fraction of a second, and its temp no longer. */
const LONGEST_MS = 5 * 60_000;

/**
 * Whether a lock or temp was left behind: by a process that no longer runs, or by one of this machine so long ago
 * that its number must have gone to another process since. A file dated in the future was left before the clock was
 * set back. What other machines left is theirs.
 */
export const isAbandoned = async (path: string, written: string, disk: Disk): Promise<boolean> => {
  if (isOrphan(written)) return true;
  if (written.replace(/\.\d+$/, '') !== owner().replace(/\.\d+$/, '')) return false;
  try {
    return Math.abs(Date.now() - (await disk.stat(path)).mtimeMs) > LONGEST_MS;
  } catch {
    return false;
  }
};

const TRIES = 100;
const PAUSE_MS = 20;
const UNSIGNED = 25;

/** Holds `path` as a lock while `work` runs; undefined where another writer kept it for two seconds. */
export const whileLocked = async <T>(
  path: string,
  disk: Disk,
  work: () => Promise<T>,
): Promise<T | undefined> => {
  let unsigned = 0;
  for (let tries = 0; tries < TRIES; tries += 1) {
    try {
      await disk.writeFile(path, owner(), { flag: 'wx' });
    } catch (error) {
      if (faultOf(error) !== 'EEXIST') {
        // On a full disk the name is made before the write fails; left there, it would lock everybody out.
        await disk.unlink(path).catch(() => undefined);
        throw error;
      }
      const holder = await disk.readFile(path, 'utf8').catch(() => '');
      // Holders sign at once: a lock that stays unsigned was left by a process killed in between.
      unsigned = holder === '' ? unsigned + 1 : 0;
      if ((await isAbandoned(path, holder, disk)) || unsigned > UNSIGNED)
        await disk.unlink(path).catch(() => undefined);
      else await pause(PAUSE_MS);
      continue;
    }
    try {
      return await work();
    } finally {
      await disk.unlink(path).catch(() => undefined);
    }
  }
  return undefined;
};
