import { basename, dirname, join, parse } from 'node:path';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { DISK, type Disk, faultOf, reasonOf } from './disk.ts';
import { sweepTemps, syncFolder, tempName, whileLocked, writeFully } from './temp.ts';

interface SaveOptions {
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

/** Gives the path of the version that was kept; undefined where there was none, or nothing changed. */
const write = async (
  path: string,
  text: string,
  options: SaveOptions,
  disk: Disk,
): Promise<string | undefined> => {
  const { expected, stamp = 'before' } = options;
  const folder = dirname(path);
  refuseUnless(path, expected, await textAt(path, disk));
  // Nothing to do: a version kept for no change would only bury the others.
  if (text === expected) return undefined;
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
  return kept;
};

/**
 * Writes a text so that at every moment the file holds either the old text or the new one, whole. The old one is
 * kept under `.history/`; what it is called there comes back, undefined where nothing was kept. Throws ProblemError:
 * already-there, changed-underneath, cannot-write; the file is then untouched.
 */
export const saveText = async (
  path: string,
  text: string,
  options: SaveOptions = {},
): Promise<string | undefined> => {
  const { disk = DISK } = options;
  // A link is followed, not replaced by a file.
  const target = await disk.realpath(path).catch(() => path);
  const lock = join(dirname(target), `.${basename(target)}.lock`);
  try {
    const done = await whileLocked(lock, disk, async () => ({
      kept: await write(target, text, options, disk),
    }));
    if (done === undefined) {
      const what = `${path} is being written by someone else`;
      const cure = `Try again in a moment. If nobody is at it, remove ${lock}.`;
      throw new ProblemError([{ code: 'cannot-write', severity: 'error', what, cure }]);
    }
    return done.kept === undefined ? undefined : stampOf(target, basename(done.kept));
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw problem('cannot-write', `${path} cannot be written: ${reasonOf(error)}`);
  }
};

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

/** The folder beside a case that keeps its former versions. */
export const HISTORY = '.history';

const MOST = 1000;

/**
 * Keeps the file as it stands under `.history/NAME.STAMP.EXT`, with a number where that name is taken. The stamp
 * comes from the caller, who has a clock. Returns the path of the kept version.
 */
const keepVersion = async (path: string, stamp: string, disk: Disk): Promise<string> => {
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

/** The stamp in the name of a kept version of a file. */
const stampOf = (path: string, kept: string): string => {
  const { name, ext } = parse(path);
  return kept.slice(name.length + 1, kept.length - ext.length);
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
      .map((each) => ({ stamp: stampOf(path, each), path: join(folder, each) }))
      // A case's history lies beside that of its second surveys, whose names go on with a dot.
      .filter(({ stamp }) => STAMP.test(stamp))
      .sort((a, b) => a.stamp.localeCompare(b.stamp, 'en', { numeric: true }))
  );
};
