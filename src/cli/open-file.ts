import { spawn } from 'node:child_process';
import { ProblemError } from '../problems/problem.ts';

/** The system's own way of opening a file, by platform. */
const OPENERS: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

/** Shows a file in whatever shows such files. Throws ProblemError where the system has nothing to open it with. */
export function openFile(path: string): Promise<void> {
  const [command = 'xdg-open', ...args] = OPENERS[process.platform] ?? ['xdg-open'];
  return new Promise((done, fail) => {
    const child = spawn(command, [...args, path], { detached: true, stdio: 'ignore' });
    child.once('error', () =>
      fail(
        new ProblemError([
          {
            code: 'cannot-read',
            severity: 'error',
            what: `${path} is written, but nothing here can open it`,
            why: `There is no "${command}" on this machine.`,
            cure: 'Open the file yourself, in any browser.',
          },
        ]),
      ),
    );
    child.once('spawn', () => {
      child.unref();
      done();
    });
  });
}
