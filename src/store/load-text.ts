import { constants } from 'node:fs';
import { basename, dirname } from 'node:path';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { DISK, type Disk, faultOf, reasonOf } from './disk.ts';

/** Bytes. A text this large is refused by `readYaml` anyway; beyond it, it is not even loaded. */
const LARGEST = 8_000_000;

const fail = (problem: Omit<Problem, 'severity'>): never => {
  throw new ProblemError([{ severity: 'error', ...problem }]);
};

const missing = async (path: string, disk: Disk): Promise<never> => {
  const there = await disk.readdir(dirname(path)).catch(() => []);
  const near = suggest(
    basename(path),
    there.filter((name) => !name.startsWith('.')),
  );
  return fail({
    code: 'no-such-file',
    what: `there is no file ${path}`,
    ...(near ? { didYouMean: near } : {}),
  });
};

const notText = (path: string, bytes: Buffer): never => {
  const [a, b] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) {
    return fail({
      code: 'not-text',
      what: `${path} was saved as UTF-16`,
      cure: 'Save it again with the encoding UTF-8; most editors offer that under "Save as".',
    });
  }
  // Line by line, so that the message can say where; a line break is one byte in UTF-8.
  let number = 1;
  for (let start = 0; start <= bytes.length; number += 1) {
    const next = bytes.indexOf(10, start);
    const line = bytes.subarray(start, next === -1 ? bytes.length : next);
    const text = line.toString('utf8');
    const column = text.indexOf('\uFFFD');
    if (column !== -1) {
      return fail({
        code: 'not-text',
        what: `${path} is not UTF-8 text: line ${number} has bytes that mean nothing`,
        place: {
          file: path,
          line: number,
          column: column + 1,
          length: 1,
          text: text.replace(/\r$/, '').slice(0, 200),
        },
      });
    }
    if (next === -1) break;
    start = next + 1;
  }
  return fail({ code: 'not-text', what: `${path} is not UTF-8 text` });
};

/**
 * The bytes of an ordinary file. What it is and how large is asked of the file as opened, and opening never waits: a pipe
 * or a device would hang, or never end. Throws ProblemError cannot-read or too-large, and the system's own faults.
 */
export async function readOrdinaryFile(path: string, most: number, disk: Disk = DISK): Promise<Buffer> {
  const file = await disk.open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const about = await file.stat();
    if (about.isDirectory())
      return fail({
        code: 'cannot-read',
        what: `${path} is a folder, not a file`,
        cure: 'Name a file inside it.',
      });
    if (!about.isFile())
      return fail({
        code: 'cannot-read',
        what: `${path} is not an ordinary file`,
        why: 'A pipe or a device may never end, so only files are read.',
        cure: 'Save it as a file first, and name that.',
      });
    if (about.size > most)
      return fail({
        code: 'too-large',
        what: `${path} holds ${Math.round(about.size / 1_000_000)} million bytes`,
      });
    return await file.readFile();
  } finally {
    await file.close();
  }
}

/**
 * A text file as it stands, byte-order mark and line ends included. Throws ProblemError: no-such-file (with the
 * nearest name in the folder), cannot-read, too-large, not-text.
 */
export const loadText = async (path: string, disk: Disk = DISK): Promise<string> => {
  let bytes: Buffer;
  try {
    bytes = await readOrdinaryFile(path, LARGEST, disk);
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    if (faultOf(error) === 'ENOENT' || faultOf(error) === 'ENOTDIR') return await missing(path, disk);
    return fail({ code: 'cannot-read', what: `${path} cannot be read: ${reasonOf(error)}` });
  }
  if (bytes.includes(0))
    return bytes[0] === 0xff || bytes[0] === 0xfe
      ? notText(path, bytes)
      : fail({
          code: 'not-text',
          what: `${path} is not a text file: it holds empty bytes`,
        });
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return notText(path, bytes);
  }
};
