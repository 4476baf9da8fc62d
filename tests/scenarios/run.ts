import { spawnSync } from 'node:child_process';
import { inject } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';
import type { Terminal } from '../../src/store/terminal.ts';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The words of a command as they are typed, none of which holds a blank. */
export const words = (typed: string): string[] => typed.split(' ');

/** What was said as one line: how it was broken into lines does not count. */
export const flat = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The day on which commands run in this process believe to be. */
export const TODAY = '2026-11-27';

/** A clock that moves by a thousandth of a second whenever it is read. */
let moment = Date.parse(`${TODAY}T10:00:00Z`);
const stamp = (): string => {
  moment += 1;
  return new Date(moment).toISOString().slice(0, -1).replace(/[:.]/g, '-');
};

const line = (text: string): string => (text.endsWith('\n') ? text : `${text}\n`);

/** Runs a command in this process, with nobody to ask: much quicker where nothing of a process is tried. */
export const runHere = (...args: string[]): Promise<Ran> => runAt(stamp, ...args);

/** The same by another clock. */
export async function runAt(clock: () => string, ...args: string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  const terminal: Terminal = {
    out: (text) => {
      said.out += line(text);
    },
    err: (text) => {
      said.err += line(text);
    },
    color: false,
    width: 80,
    canAsk: false,
    today: () => TODAY,
    stamp: clock,
  };
  return { code: await commandLine(args, terminal), ...said };
}

/** The same with `folder` as the current one, which is the process's own: one command after another. */
export async function run(folder: string, ...args: string[]): Promise<Ran> {
  const before = process.cwd();
  process.chdir(folder);
  try {
    return await runHere(...args);
  } finally {
    process.chdir(before);
  }
}

/** Runs the built command as a process of its own, with no terminal on any of its ends. */
export const runBuilt = (folder: string, ...args: string[]): Ran => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [inject('built'), ...args], {
    cwd: folder,
    encoding: 'utf8',
    input: '',
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: status, out: stdout, err: stderr };
};
