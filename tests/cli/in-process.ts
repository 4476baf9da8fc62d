import { commandLine } from '../../src/cli/command-line.ts';
import type { Terminal } from '../../src/store/terminal.ts';
import type { Ran } from '../scenarios/run.ts';

/** Runs a command in this process, with nobody to ask: much quicker where nothing of a process is tried. */
export async function runHere(...args: string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  const terminal: Terminal = {
    out: (text) => {
      said.out += `${text}\n`;
    },
    err: (text) => {
      said.err += `${text}\n`;
    },
    color: false,
    width: 80,
    canAsk: false,
    today: () => '2026-11-25',
    stamp: () => '2026-11-25T10-00-00-000',
  };
  return { code: await commandLine(args, terminal), ...said };
}
