import { execFileSync } from 'node:child_process';
import { closeSync, constants, mkdtempSync, openSync, readFileSync, readSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { afterEach, describe, expect, it } from 'vitest';
import { printerTo } from '../../src/cli/printer.ts';

const folder = () => mkdtempSync(join(tmpdir(), 'mendwise-printer-'));

/** A stream that keeps what it is given. */
function keeping(): { readonly stream: NodeJS.WriteStream; readonly kept: Buffer[] } {
  const kept: Buffer[] = [];
  const stream = new Writable({
    write: (piece: Buffer, _, done) => {
      kept.push(piece);
      done();
    },
  });
  return { stream: stream as unknown as NodeJS.WriteStream, kept };
}

const noStream = (): never => {
  throw new Error('no stream is wanted here');
};

/** A named pipe, opened at both ends without waiting. */
function pipe(): { readonly reading: number; readonly writing: number } {
  const path = join(folder(), 'pipe');
  execFileSync('mkfifo', [path]);
  const reading = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
  return { reading, writing: openSync(path, constants.O_WRONLY | constants.O_NONBLOCK) };
}

const LONG = 'Ein Flicken über dem andern – 1½ in.\n'.repeat(20_000);

afterEach(() => {
  process.exitCode = undefined;
});

describe('printing to a file or a pipe', () => {
  it('writes a long text whole into a file, and opens no stream', async () => {
    const path = join(folder(), 'answer');
    const handle = openSync(path, 'w');
    const printer = printerTo(handle, noStream);
    printer.print(LONG);
    printer.print('Ende\n');
    await printer.written();
    expect(readFileSync(path, 'utf8')).toBe(`${LONG}Ende\n`);
    expect(printer.isTerminal).toBe(false);
    expect(process.exitCode).toBeUndefined();
  });

  it('leaves the rest to a stream where a pipe is full and was set not to wait', async () => {
    const { reading, writing } = pipe();
    const { stream, kept } = keeping();
    const printer = printerTo(writing, () => stream);
    printer.print(LONG);
    printer.print('Ende\n');
    await printer.written();
    const held = Buffer.alloc(2 * LONG.length);
    const first = held.subarray(0, readSync(reading, held));
    // More than a pipe holds at once on Linux (pipe(7)), so that both had a part in it.
    expect(first.length).toBeGreaterThan(0);
    expect(kept.length).toBeGreaterThan(0);
    expect(Buffer.concat([first, ...kept]).toString('utf8')).toBe(`${LONG}Ende\n`);
    expect(process.exitCode).toBeUndefined();
  });

  it('is quiet where the reader went away', async () => {
    const { reading, writing } = pipe();
    closeSync(reading);
    const printer = printerTo(writing, noStream);
    printer.print(LONG);
    await printer.written();
    expect(process.exitCode).toBeUndefined();
  });

  it('tells any other fault by the exit code', async () => {
    const path = join(folder(), 'answer');
    closeSync(openSync(path, 'w'));
    const printer = printerTo(openSync(path, 'r'), noStream);
    printer.print('kept nowhere');
    await printer.written();
    expect(process.exitCode).toBe(4);
  });

  it('leaves whatever is neither file nor pipe to a stream', async () => {
    const { stream, kept } = keeping();
    const printer = printerTo(openSync('/dev/null', 'w'), () => stream);
    printer.print('to a device');
    await printer.written();
    expect(kept.toString()).toBe('to a device');
  });
});
