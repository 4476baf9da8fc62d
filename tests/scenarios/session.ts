import { type IPty, spawn } from '@lydell/node-pty';

// biome-ignore lint/suspicious/noControlCharactersInRegex: terminal control sequences are what is taken out
const CONTROLS = /\u001b\[[0-9;?]*[A-Za-z]|\u001b[=>]|\r/g;

// biome-ignore lint/suspicious/noControlCharactersInRegex: the same, arrived by half
const HALF = /\u001b(\[[0-9;?]*)?$/;

/** What a person would read, without cursor movements and colours. */
export const plain = (raw: string): string => raw.replace(CONTROLS, '');

export interface SessionOptions {
  readonly cwd: string;
  readonly columns?: number;
  readonly env?: Readonly<Record<string, string>>;
}

export const ENTER = '\r';
/** Empties the line being typed. */
export const CLEAR = '\u0015';
export const CTRL_C = '\u0003';

/** A program in a real pseudo-terminal, answered as a person would: wait for the question, then type. */
export class Session {
  readonly #pty: IPty;
  #raw = '';
  #from = 0;
  #ended: number | undefined;

  constructor(command: readonly string[], { cwd, columns = 80, env = {} }: SessionOptions) {
    const [file = '', ...args] = command;
    const { NO_COLOR: _, ...inherited } = process.env;
    this.#pty = spawn(file, args, {
      cwd,
      cols: columns,
      rows: 50,
      name: 'xterm-256color',
      env: { ...inherited, TERM: 'xterm-256color', ...env },
    });
    this.#pty.onData((data) => {
      this.#raw += data;
    });
    this.#pty.onExit(({ exitCode }) => {
      this.#ended = exitCode;
    });
  }

  get raw(): string {
    return this.#raw;
  }

  get screen(): string {
    return plain(this.#raw);
  }

  /** Waits until `text` has appeared after what was last waited for. Blanks and line breaks do not count. */
  async see(text: string, within = 15_000): Promise<void> {
    const wanted = text.replace(/\s+/g, '');
    const until = Date.now() + within;
    for (;;) {
      // A control sequence may have arrived by half.
      const seen = plain(this.#raw.replace(HALF, '')).replace(/\s+/g, '');
      const at = seen.indexOf(wanted, this.#from);
      if (at !== -1) {
        this.#from = at + wanted.length;
        return;
      }
      if (this.#ended !== undefined || Date.now() > until)
        throw new Error(`never saw "${text}" at the end of:\n${this.screen.slice(-1500)}`);
      await new Promise((resolve) => setTimeout(resolve, 15));
    }
  }

  type(keys: string): void {
    this.#pty.write(keys);
  }

  /** Waits for a question and types an answer with Enter. */
  async answer(question: string, keys: string): Promise<void> {
    await this.see(question);
    // The prompt draws before it listens; a moment, as a person would take.
    await new Promise((resolve) => setTimeout(resolve, 30));
    this.#pty.write(`${keys}${ENTER}`);
  }

  /** The exit code, once it has ended. */
  async end(within = 15_000): Promise<number> {
    const until = Date.now() + within;
    while (this.#ended === undefined) {
      if (Date.now() > until) throw new Error(`still running:\n${this.screen.slice(-1500)}`);
      await new Promise((resolve) => setTimeout(resolve, 15));
    }
    return this.#ended;
  }

  close(): void {
    if (this.#ended === undefined) this.#pty.kill();
  }
}
