import { basename, dirname, join } from 'node:path';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { DISK, type Disk, faultOf, reasonOf } from './disk.ts';
import { keepVersion } from './history.ts';
import { whileLocked } from './lock.ts';
import { sweepTemps, syncFolder, tempName, writeFully } from './temp.ts';

export interface SaveOptions {
  /** The text the caller read. Needed to replace a file; without it only a new file is written. */
  readonly expected?: string;
  /** Names the version kept in `.history/`, such as 2026-03-05T10-15-00. The caller has the clock. */
  readonly stamp?: string;
  readonly disk?: Disk;
}

const problem = (code: Problem['code'], what: string): ProblemError =>
  new ProblemError([{ code, severity: 'error', what }]);

const textAt = async (path: string, disk: Disk): Promise<string | undefined> => {
  try {
    return await disk.readFile(path, 'utf8');
  } catch (error) {
    if (faultOf(error) === 'ENOENT') return undefined;
    throw error;
  }
};

const refuseUnless = (path: string, expected: string | undefined, now: string | undefined): void => {
  if (expected === undefined && now !== undefined) {
    throw problem('already-there', `${path} already exists`);
  }
  if (expected !== undefined && now !== expected) {
    const how = now === undefined ? 'was removed or renamed' : 'was changed';
    throw problem('changed-underneath', `${path} ${how} since it was read`);
  }
};

const write = async (path: string, text: string, options: SaveOptions, disk: Disk): Promise<void> => {
  const { expected, stamp = 'before' } = options;
  const folder = dirname(path);
  refuseUnless(path, expected, await textAt(path, disk));
  // Nothing to do: a version kept for no change would only bury the others.
  if (text === expected) return;
  await sweepTemps(folder, basename(path), disk);
  const mode = expected === undefined ? 0o666 : (await disk.stat(path)).mode & 0o777;
  const temp = tempName(folder, basename(path));
  let kept: string | undefined;
  try {
    await writeFully(temp, text, mode, disk);
    // An editor knows nothing of our lock: look once more, as late as can be.
    refuseUnless(path, expected, await textAt(path, disk));
    if (expected !== undefined) kept = await keepVersion(path, stamp, disk);
    await disk.rename(temp, path);
  } catch (error) {
    await disk.unlink(temp).catch(() => undefined);
    if (kept !== undefined) await disk.unlink(kept).catch(() => undefined);
    throw error;
  }
  await syncFolder(folder, disk);
};

/**
 * Writes a text so that at every moment the file holds either the old text or the new one, whole. The old one is
 * kept under `.history/`. Throws ProblemError: already-there, changed-underneath, cannot-write; the file is then
 * untouched.
 */
export const saveText = async (path: string, text: string, options: SaveOptions = {}): Promise<void> => {
  const { disk = DISK } = options;
  // A link is followed, not replaced by a file.
  const target = await disk.realpath(path).catch(() => path);
  const lock = join(dirname(target), `.${basename(target)}.lock`);
  try {
    const done = await whileLocked(lock, disk, async () => {
      await write(target, text, options, disk);
      return true;
    });
    if (!done) {
      const what = `${path} is being written by someone else`;
      const cure = `Try again in a moment. If nobody is at it, remove ${lock}.`;
      throw new ProblemError([{ code: 'cannot-write', severity: 'error', what, cure }]);
    }
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw problem('cannot-write', `${path} cannot be written: ${reasonOf(error)}`);
  }
};
