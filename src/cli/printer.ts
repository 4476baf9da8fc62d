import { fstatSync, writeSync } from 'node:fs';

/** One of the two places a program prints to. */
export interface Printer {
  readonly isTerminal: boolean;
  readonly columns: number | undefined;
  print(text: string | Uint8Array): void;
  /** Waits until all that was printed is out, or has failed. */
  written(): Promise<void>;
}

/** What a printer asks of a stream such as process.stdout. */
type Open = () => NodeJS.WriteStream;

/** A file or a pipe is written to at once: Node takes some 3 ms to open a stream. A terminal is a stream. */
export const printerTo = (handle: number, open: Open): Printer =>
  isPlain(handle) ? plainPrinter(handle, open) : streamPrinter(open());

/** On Windows everything goes by a stream: there, pipes need one. */
function isPlain(handle: number): boolean {
  if (process.platform === 'win32') return false;
  try {
    const about = fstatSync(handle);
    return about.isFile() || about.isFIFO() || about.isSocket();
  } catch {
    return false;
  }
}

/** A reader that went away, as in "| head", is no fault of the answer; any other fault of writing is told by the exit code. */
const failed = (error: unknown): void => {
  if ((error as NodeJS.ErrnoException).code !== 'EPIPE') process.exitCode = 4;
};

function plainPrinter(handle: number, open: Open): Printer {
  let stream: Printer | undefined;
  return {
    isTerminal: false,
    columns: undefined,
    print: (text) => {
      const bytes = typeof text === 'string' ? Buffer.from(text) : text;
      let out = 0;
      try {
        while (stream === undefined && out < bytes.length) out += writeSync(handle, bytes, out);
      } catch (error) {
        // A pipe that whoever started us set not to wait, and that is full: a stream knows how to wait for it.
        if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') return failed(error);
        stream = streamPrinter(open());
      }
      if (stream !== undefined) stream.print(bytes.subarray(out));
    },
    written: async () => stream?.written(),
  };
}

export function streamPrinter(stream: NodeJS.WriteStream): Printer {
  stream.on('error', failed);
  return {
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
    print: (text) => void stream.write(text),
    written: async () => {
      if (stream.writableLength > 0) await new Promise((resolve) => stream.write('', resolve));
      // Faults of writing are told a moment later, so a moment is waited for them.
      await new Promise((resolve) => setImmediate(resolve));
    },
  };
}
