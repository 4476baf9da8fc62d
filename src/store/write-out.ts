import { existsSync, realpathSync, statSync } from 'node:fs';
import { basename, extname, resolve } from 'node:path';
import { ProblemError } from '../problems/problem.ts';
import { readOrdinaryFile } from './load-text.ts';
import { saveText } from './save-text.ts';
import { relativeName } from './studio.ts';
import type { Terminal } from './terminal.ts';

/** How files of papers and pages end. Nothing a studio edits ends like that. */
const PAPERS: ReadonlySet<string> = new Set(['.html', '.htm', '.md', '.txt']);

/** Bytes. A paper holds its photographs, so it may be far larger than a text that is read as YAML. */
const LARGEST = 200_000_000;

/** The option by which an older paper is written over. */
export const REPLACE_OPTION = {
  flags: '--replace',
  help: 'write over an older paper of that name; it is kept under .history',
} as const;

/**
 * Refuses a paper or page where a case, rules or settings may stand, and over an older paper unless that was asked for.
 * Work that takes long asks this first: nobody waits to be refused. Throws ProblemError `usage`, `already-there` or
 * `cannot-write`.
 */
export function refusePaper(file: string | undefined, replace: boolean): void {
  if (file === undefined || file === '-') return;
  const path = resolve(file);
  const there = existsSync(path);
  // A link may lead to something that is no paper.
  const real = there ? realpathSync(path) : path;
  const leads = basename(real) === basename(path) ? '' : ` leads to ${relativeName(real)}, which`;
  if (!PAPERS.has(extname(real).toLowerCase()))
    throw refusal(
      'usage',
      `${relativeName(path)}${leads} is not named like a paper`,
      'Cases, rules and settings have other names, and a paper must never take the place of one.',
      'Name a file that ends in .html, .md or .txt.',
    );
  if (there && !statSync(path).isFile())
    throw refusal(
      'cannot-write',
      `${relativeName(path)} is not an ordinary file`,
      'A paper is written whole, which only a file can take.',
      'Name a file.',
    );
  if (there && !replace)
    throw refusal(
      'already-there',
      `${relativeName(path)} is there already`,
      'Somebody may have signed or changed it.',
      'Name another file, or add --replace: the older one is then kept under .history.',
    );
}

/** Writes a paper whole. An older one is kept under .history. Throws what `refusePaper` throws. */
export async function writePaper(
  file: string,
  text: string,
  replace: boolean,
  terminal: Terminal,
): Promise<void> {
  refusePaper(file, replace);
  const path = resolve(file);
  const older = existsSync(path) ? (await readOrdinaryFile(path, LARGEST)).toString('utf8') : undefined;
  await saveText(path, text, older === undefined ? {} : { expected: older, stamp: terminal.stamp() });
}

/** The same, or to the terminal for "-". */
export async function writePage(
  file: string,
  text: string,
  replace: boolean,
  terminal: Terminal,
): Promise<void> {
  if (file === '-') return terminal.out(text);
  await writePaper(file, text, replace, terminal);
  terminal.err(`Written to ${file}.`);
}

const refusal = (
  code: 'usage' | 'cannot-write' | 'already-there',
  what: string,
  why: string,
  cure: string,
): ProblemError => new ProblemError([{ code, severity: 'error', what, why, cure }]);
