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

export function systemTerminal(): Terminal {
  const { env, stdout, stdin, stderr } = process;
  // A reader that went away, as in "| head", is no fault of the answer.
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') return;
      process.exitCode = 4;
    });
  }
  const print = (stream: NodeJS.WriteStream, text: string): void => {
    stream.write(text.endsWith('\n') ? text : `${text}\n`);
  };
  return {
    out: (text) => print(stdout, text),
    err: (text) => print(stderr, text),
    color: stdout.isTTY === true && env.NO_COLOR === undefined && env.TERM !== 'dumb',
    width: Math.min(100, Math.max(40, stdout.columns ?? 80)),
    canAsk: stdin.isTTY === true && stderr.isTTY === true,
    today: () => {
      const now = new Date();
      return `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
    },
    stamp: () => {
      const now = new Date();
      const day = `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
      return `${day}T${pad(now.getHours())}-${pad(now.getMinutes())}-${pad(now.getSeconds())}-${pad(now.getMilliseconds(), 3)}`;
    },
  };
}
