import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { isAbandoned, owner } from './lock.ts';

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
