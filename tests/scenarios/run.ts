import { spawnSync } from 'node:child_process';
import { inject } from 'vitest';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command where nobody can be asked: no terminal on any of its ends. */
export const run = (cwd: string, ...args: string[]): Ran => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [inject('built'), ...args], {
    cwd,
    encoding: 'utf8',
    input: '',
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: status, out: stdout, err: stderr };
};
