import { basename, dirname, join } from 'node:path';
import { ProblemError } from '../problems/problem.ts';
import { DISK, type Disk, faultOf, reasonOf } from './disk.ts';
import { whileLocked } from './lock.ts';
import { sweepTemps, syncFolder, tempName, writeFully } from './temp.ts';

const failed = (path: string, error: unknown): ProblemError =>
  new ProblemError([
    { code: 'cannot-write', severity: 'error', what: `${path} cannot be written: ${reasonOf(error)}` },
  ]);

/**
 * Writes what is still being gathered, so that at every moment the file holds the last text or this one, whole. Unlike
 * `saveText` it keeps no former versions: a draft changes with every answer. `expected` is the text it held when it was
 * last read or written here; undefined where there was none. Throws ProblemError: cannot-write, changed-underneath.
 */
export const saveDraft = async (
  path: string,
  text: string,
  expected: string | undefined,
  disk: Disk = DISK,
): Promise<void> => {
  await disk.mkdir(dirname(path), { recursive: true }).catch((error: unknown) => {
    throw failed(path, error);
  });
  const done = await whileLocked(join(dirname(path), `.${basename(path)}.lock`), disk, async () => {
    const there = await disk.readFile(path, 'utf8').catch(() => undefined);
    if (there !== expected) throw await conflict(path, text, disk);
    await replaceDraft(path, text, disk);
    return true;
  });
  if (done === undefined) throw await conflict(path, text, disk);
};

/** Somebody else's interview has written meanwhile: what was said here is put beside it, and nothing is lost. */
async function conflict(path: string, text: string, disk: Disk): Promise<ProblemError> {
  const beside = `${path}.${process.pid}.kept`;
  await replaceDraft(beside, text, disk);
  return new ProblemError([
    {
      code: 'changed-underneath',
      severity: 'error',
      what: `another interview on the same quilt has written to ${basename(path)} since this one began`,
      why: 'Two interviews at once would each drop what the other was told.',
      cure: `Finish one of them. What was answered here is kept in ${basename(beside)}, beside it.`,
    },
  ]);
}

const replaceDraft = async (path: string, text: string, disk: Disk): Promise<void> => {
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
