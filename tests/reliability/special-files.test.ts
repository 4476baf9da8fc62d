import { execFileSync, spawnSync } from 'node:child_process';
import {
  appendFileSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, inject, it } from 'vitest';
import { sample } from '../tiers.ts';
import { firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);
const REPORT = new URL('report-memory.cjs', import.meta.url).pathname;

/** A command that waits for a pipe waits for ever; the slowest here takes about two seconds on a busy machine. */
const LONGEST_MS = 20_000;
/** Megabytes. A command holds about 150; a file of 3 GB, or a device without an end, would take all there is. */
const MOST_MB = 400;

interface Ended {
  readonly code: number | null;
  readonly said: string;
  readonly megabytes: number;
}

/** Runs the command with a small heap, and ends it where it hangs: its code is then nothing. */
function end(...typed: string[]): Ended {
  const memory = at('memory');
  const { status, stdout, stderr } = spawnSync(process.execPath, [inject('built'), ...typed], {
    cwd: at(),
    encoding: 'utf8',
    input: '',
    timeout: LONGEST_MS,
    killSignal: 'SIGKILL',
    env: {
      ...process.env,
      NO_COLOR: '1',
      NODE_OPTIONS: `--max-old-space-size=256 --require ${REPORT}`,
      MENDWISE_MEMORY_FILE: memory,
    },
  });
  const told = status === null ? Number.NaN : Number(readFileSync(memory, 'utf8')) / 1024;
  return { code: status, said: `${stdout}${stderr}`.replace(/\s+/g, ' '), megabytes: told };
}

type Special = readonly [plant: (path: string) => void, said: RegExp];
/** What may lie where a file is wanted, and what is to be said of it. */
const SPECIAL: Readonly<Record<string, Special>> = {
  'a pipe': [(path) => execFileSync('mkfifo', [path]), /is not an ordinary file/],
  'a link to a device without an end': [(path) => symlinkSync('/dev/zero', path), /is not an ordinary file/],
  'a folder': [(path) => mkdirSync(path), /is a folder, not a file/],
  'a file of 3 GB': [
    (path) => {
      writeFileSync(path, '');
      truncateSync(path, 3_000_000_000);
    },
    /holds 3000 million bytes .*\[too-large\]/,
  ],
  'a link to nothing': [(path) => symlinkSync('nowhere', path), /there is no (?:file|case)/],
};

interface Place {
  path(): string;
  typed(): string[];
  prepare?(): void;
  readonly told?: RegExp;
  readonly free?: string;
}
/** Where it may lie, and a command that would read it. `told` where the answer is to be given without it. */
const PLACES: Readonly<Record<string, Place>> = {
  'a case': { path: () => at('cases', 'odd.yaml'), typed: () => ['decide', 'odd', '--quick'] },
  'the words of papers': {
    path: () => at('rules', 'texts.yaml'),
    typed: () => ['sheet', name(), '--out', '-', '--quick'],
  },
  'the settings': {
    path: () => at('studio.yaml'),
    typed: () => ['decide', name(), '--quick'],
    // Without settings the usual ones hold.
    free: 'a link to nothing',
  },
  'the draft of an interview': {
    path: () => at('cases', `${name()}.draft.yaml`),
    typed: () => ['survey', name(), '--set', 'damp=no'],
    // Nothing is there to go on with, so the interview begins anew.
    free: 'a link to nothing',
  },
  'the answers for --from': {
    path: () => at('answers.yaml'),
    typed: () => ['survey', name(), '--from', 'answers.yaml'],
  },
  'the logo': {
    path: () => at('logo.png'),
    prepare: () => appendFileSync(at('studio.yaml'), '\nlogo: logo.png\n'),
    typed: () => ['sheet', name(), '--out', 'paper.html', '--quick'],
    told: /warning: the logo logo\.png is not there, or is no picture a page can show .*Documents go out without it/,
  },
  'a photograph': {
    path: () => at('cases', 'front.jpg'),
    prepare: () =>
      appendFileSync(at('cases', `${name()}.yaml`), '\nphotos: [{ file: front.jpg, of: the front }]\n'),
    typed: () => ['sheet', name(), '--kind', 'survey', '--out', '-', '--format', 'text'],
    told: /front\.jpg/,
  },
};

/** Each of them in each place; the short tier takes every fourth, so that each place and each of them is tried. */
const PLANTED = sample(
  Object.entries(PLACES).flatMap(([where, place]) =>
    Object.entries(SPECIAL).map(([what, special]) => [where, what, place, special] as const),
  ),
  4,
);

describe('what lies where a file is wanted', () => {
  it.each(PLANTED)('%s may be %s', (_, what, { path, typed, prepare, told, free }, [plant, said]) => {
    prepare?.();
    const [place, words] = [path(), typed()];
    rmSync(place, { force: true });
    plant(place);
    const ended = end(...words);
    expect(ended.code, 'hung').not.toBeNull();
    expect(ended.megabytes).toBeLessThan(MOST_MB);
    expect(ended.said).not.toMatch(/\[internal\]|heap out of memory/);
    if (free === what) return expect(ended.code).toBe(0);
    expect(ended.said).toMatch(told ?? said);
    if (told !== undefined) return expect(ended.code).toBe(0);
    expect([2, 4]).toContain(ended.code);
    expect(ended.said).toMatch(/error: .*Why: .*Do: /);
  });
});

describe('what is looked for here', () => {
  it('is seen in a program that reads a device whole', () => {
    const reading =
      'for (let n = 0; n < 60; n += 1) { held.push(Buffer.alloc(1e7)); readSync(zero, held[n]); }';
    const opening =
      "const fs = require('node:fs'), { readSync } = fs, zero = fs.openSync('/dev/zero'), held = [];";
    const planted = `${opening} ${reading}`;
    const memory = at('memory');
    spawnSync(process.execPath, ['--require', REPORT, '-e', planted], {
      env: { ...process.env, MENDWISE_MEMORY_FILE: memory },
      stdio: 'pipe',
    });
    expect(Number(readFileSync(memory, 'utf8')) / 1024).toBeGreaterThan(MOST_MB);
  });
});
