// Listing many cases by the built command, for the first time and again: time, its exponent in the number of cases, and
// the most memory the process ever took. Sizes: BENCH_SIZES, 1000 and 10000 unless given.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { seeded } from '../reliability/seeded.ts';

const SIZES = (process.env.BENCH_SIZES ?? '1000,10000').split(',').map(Number);
const main = resolve('dist/main.js');
const shipped = readdirSync('cases')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => readFileSync(join('cases', name), 'utf8'));

/** A shipped case under another name and with other figures, without what it expects. */
const variant = (number: number): string => {
  const random = seeded(number + 1);
  random();
  const text = shipped[number % shipped.length] ?? '';
  return text
    .replace(/^case: .*/m, `case: made-${number}`)
    .replace(/^expect:.*\n(?: .*\n|\n)*/m, '')
    .replace(/wanted_years: \d+/, `wanted_years: ${1 + Math.floor(random() * 25)}`)
    .replace(/budget: \d+/, `budget: ${100 + Math.floor(random() * 3000)}`);
};

const timed = (folder: string, ...args: string[]): { seconds: number; megabytes: number } => {
  const start = performance.now();
  const { status, stderr } = spawnSync('/usr/bin/time', ['-f', '%M', process.execPath, main, ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  if (status !== 0 && status !== 1) throw new Error(stderr);
  return {
    seconds: (performance.now() - start) / 1000,
    megabytes: Number(stderr.trim().split('\n').at(-1)) / 1000,
  };
};

const seconds: Record<'first' | 'again', number[]> = { first: [], again: [] };
for (const size of SIZES) {
  const folder = mkdtempSync(join(tmpdir(), 'mendwise-many-'));
  process.env.XDG_CACHE_HOME = join(folder, 'cache');
  cpSync('rules', join(folder, 'rules'), { recursive: true });
  mkdirSync(join(folder, 'cases'));
  for (let number = 0; number < size; number += 1)
    writeFileSync(join(folder, 'cases', `made-${number}.yaml`), variant(number));
  for (const which of ['first', 'again'] as const) {
    const took = timed(folder, 'cases', '--json');
    seconds[which].push(took.seconds);
    console.log(
      `cases, ${size}, ${which}: ${took.seconds.toFixed(1)} s, ${took.megabytes.toFixed(0)} MB at most`,
    );
  }
  rmSync(folder, { recursive: true });
}
for (const [which, [first = 1, ...rest]] of Object.entries(seconds)) {
  const exponent = Math.log((rest.at(-1) ?? first) / first) / Math.log((SIZES.at(-1) ?? 1) / (SIZES[0] ?? 1));
  if (rest.length > 0)
    console.log(`cases, ${which}: time grows with the ${exponent.toFixed(2)}th power of their number`);
}
