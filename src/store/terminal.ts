import { spawn } from 'node:child_process';
import { printProblems } from '../problems/print.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';

/** The one door to the person at the keyboard: answers on stdout, messages on stderr. */
export interface Terminal {
  /** Prints an answer. */
  out(text: string): void;
  /** Prints a message, a warning or an error. */
  err(text: string): void;
  readonly color: boolean;
  /** Columns to wrap to: the terminal's, between 40 and 100; 80 where there is none. */
  readonly width: number;
  /** Whether questions can be asked: stdin and stderr are both a terminal. */
  readonly canAsk: boolean;
  /** Today, `YYYY-MM-DD`, in the studio's own time zone. */
  today(): string;
  /** A stamp for kept versions, such as 2026-03-05T10-15-00-123. */
  stamp(): string;
}

const pad = (value: number, digits = 2): string => String(value).padStart(digits, '0');

/**
 * What could steer the terminal, or turn the direction of writing, in a name or text that came from elsewhere; our own
 * colours are let through.
 */
const STEERING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what this looks for
  /\u001B(?!\[\d{1,2}m)|[\u0000-\u0008\u000B\u000C\u000D\u000E-\u001A\u001C-\u001F\u007F-\u009F\u200E\u200F\u202A-\u202E\u2066-\u2069]/g;

/** `YYYY-MM-DD` in the time zone of this machine. */
export function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
}

/** A reader that went away, as in "| head", is no fault of the answer; any other fault of writing is told by the exit code. */
const failed = (error: unknown): void => {
  if ((error as NodeJS.ErrnoException).code !== 'EPIPE') process.exitCode = 4;
};

/** The terminal of this process. */
export function systemTerminal(): Terminal {
  const { env, stdin, stdout, stderr } = process;
  for (const stream of [stdout, stderr]) stream.on('error', failed);
  const print = (stream: NodeJS.WriteStream, text: string): void => {
    const harmless = text.replace(STEERING, '\uFFFD');
    stream.write(harmless.endsWith('\n') ? harmless : `${harmless}\n`);
  };
  return {
    out: (text) => print(stdout, text),
    err: (text) => print(stderr, text),
    color: stdout.isTTY === true && env.NO_COLOR === undefined && env.TERM !== 'dumb',
    width: Math.min(100, Math.max(40, stdout.columns ?? 80)),
    canAsk: stdin.isTTY === true && stderr.isTTY === true,
    today,
    stamp: () => {
      const now = new Date();
      const day = `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
      return `${day}T${pad(now.getHours())}-${pad(now.getMinutes())}-${pad(now.getSeconds())}-${pad(now.getMilliseconds(), 3)}`;
    },
  };
}

/** Prints on stderr what is wrong or odd; nothing where there is nothing. */
export const tellProblems = (problems: readonly Problem[], terminal: Terminal): void => {
  if (problems.length > 0) terminal.err(printProblems(problems, terminal));
};

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
