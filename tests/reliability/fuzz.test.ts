import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { run } from '../scenarios/run.ts';
import { FULL } from '../tiers.ts';
import { mutate } from './mutants.ts';
import { seeded } from './seeded.ts';
import { freshStudio } from './studio.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
/** Files spoilt for the core, and for the command line; 10,000 in all where there is time for it. */
const MUTANTS = FULL ? 9800 : 100;
const COMMANDS = FULL ? 200 : 9;
const PROCESSES = 2;

interface Tally {
  readonly answer: number;
  readonly problems: number;
  readonly slowest: number;
  readonly slowestIs: string;
  readonly memory: number;
  readonly failed: readonly string[];
}

const at = freshStudio();
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-fuzz-'));
  const banner =
    'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);';
  execFileSync(
    'npx',
    [
      'esbuild',
      'tests/reliability/fuzz-worker.ts',
      '--bundle',
      '--platform=node',
      '--format=esm',
      '--log-level=error',
      `--outfile=${folder}/worker.mjs`,
      `--banner:js=${banner}`,
    ],
    { cwd: ROOT },
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const part = (from: number, to: number): Promise<Tally> =>
  new Promise((done, failed) => {
    const child = spawn(process.execPath, [join(folder, 'worker.mjs'), ROOT, String(from), String(to)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let out = '';
    child.stdout.on('data', (piece: Buffer) => {
      out += piece.toString();
    });
    child.on('error', failed);
    child.on('close', (code) =>
      code === 0 ? done(JSON.parse(out)) : failed(new Error(`the worker ended with ${code}`)),
    );
  });

it(`${MUTANTS} spoilt case and rule files each end in an answer or a clear error, within 2 s and 500 MB`, async () => {
  const share = MUTANTS / PROCESSES;
  const tallies = await Promise.all(
    Array.from({ length: PROCESSES }, (_, index) => part(index * share, (index + 1) * share)),
  );
  for (const { failed, slowest, slowestIs, memory } of tallies) {
    expect(failed).toEqual([]);
    expect(slowest, slowestIs).toBeLessThan(2000);
    expect(memory).toBeLessThan(500e6);
  }
  const sum = (name: 'answer' | 'problems') => tallies.reduce((all, tally) => all + tally[name], 0);
  expect(sum('answer') + sum('problems')).toBe(MUTANTS);
  // Neither kind is rare, or the mutations were too harsh or too mild to try anything.
  expect(sum('answer')).toBeGreaterThan(MUTANTS / 20);
  expect(sum('problems')).toBeGreaterThan(MUTANTS / 5);
  if (FULL) console.log(JSON.stringify(tallies));
}, 3_600_000);

it(`${COMMANDS} of them through the command itself: an exit code as promised, never a stack trace`, async () => {
  const texts = readdirSync(join(ROOT, 'cases'))
    .filter((each) => each.endsWith('.yaml'))
    .map((each) => [each, readFileSync(join(ROOT, 'cases', each), 'utf8')] as const);
  const rules = ['findings.yaml', 'figures.yaml', 'stages/stop.yaml', 'stages/means.yaml', 'units.yaml'];
  for (let number = 0; number < COMMANDS; number += 1) {
    const random = seeded(number * 104_729 + 3);
    random();
    const [name, text] = texts[Math.floor(random() * texts.length)] ?? ['', ''];
    writeFileSync(at('cases', name), number % 3 === 0 ? text : mutate(text, text, random));
    const spoilt = rules[number % rules.length] ?? '';
    const sound = readFileSync(at('rules', spoilt), 'utf8');
    if (number % 3 === 0) writeFileSync(at('rules', spoilt), mutate(sound, text, random));
    const start = performance.now();
    const { code, out, err } = await run(at(), 'decide', basename(name, '.yaml'), '--quick', '--json');
    expect(performance.now() - start, `${number}`).toBeLessThan(5000);
    expect(`${out}${err}`, `${number}`).not.toMatch(/^\s+at .+:\d+:\d+|\[internal\]/m);
    if (code === 0) expect(JSON.parse(out).schema).toBe('mendwise/decision@1');
    else expect([code, out, err.length > 20]).toEqual([code === 4 ? 4 : 2, '', true]);
    writeFileSync(at('rules', spoilt), sound);
  }
}, 600_000);
