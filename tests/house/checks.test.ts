import { execFile } from 'node:child_process';
import { describe, expect, it } from 'vitest';

/** Run beside the other tests instead of before them: a fault of one kind hides none of another. */
const CHECKS: readonly string[] = ['tsc -p .', 'biome check --error-on-warnings .', 'knip --production'];

describe('the source', () => {
  it.concurrent.each(CHECKS)('passes %s', async (command) => {
    const told = await new Promise<{ code: unknown; text: string }>((done) => {
      execFile('npx', ['--no-install', ...command.split(' ')], { maxBuffer: 1 << 26 }, (error, out, err) =>
        done({ code: error?.code ?? 0, text: out + err }),
      );
    });
    expect(told.code, told.text).toBe(0);
  });
});
