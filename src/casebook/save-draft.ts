import { basename, dirname } from 'node:path';
import { ProblemError } from '../problems/problem.ts';
import { DISK, type Disk, faultOf, reasonOf } from './disk.ts';
import { sweepTemps, syncFolder, tempName, writeFully } from './temp.ts';

const failed = (path: string, error: unknown): ProblemError =>
  new ProblemError([
    { code: 'cannot-write', severity: 'error', what: `${path} cannot be written: ${reasonOf(error)}` },
  ]);

/**
 * Writes what is still being gathered, so that at every moment the file holds the last text or this one, whole. Unlike
 * `saveText` it keeps no former versions: a draft changes with every answer. Throws ProblemError: cannot-write.
 */
export const saveDraft = async (path: string, text: string, disk: Disk = DISK): Promise<void> => {
  const folder = dirname(path);
  const temp = tempName(folder, basename(path));
  try {
    await disk.mkdir(folder, { recursive: true });
    await sweepTemps(folder, basename(path), disk);
    await writeFully(temp, text, 0o666, disk);
    await disk.rename(temp, path);
    await syncFolder(folder, disk);
  } catch (error) {
    await disk.unlink(temp).catch(() => undefined);
    throw failed(path, error);
  }
};

/** Takes a draft away once its answers stand elsewhere. One that is gone already is no fault. */
export const dropDraft = async (path: string, disk: Disk = DISK): Promise<void> => {
  try {
    await disk.unlink(path);
  } catch (error) {
    if (faultOf(error) !== 'ENOENT') throw failed(path, error);
  }
};
