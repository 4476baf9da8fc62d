// Whole processes of the built command as ratios to an empty Node, taken in turn so that a busy machine is busy for all.
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { performance } from 'node:perf_hooks';

const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 15);
/** One that waits for its first estimate, and one that was approved and looked at since, which is decided twice. */
const CASE = 'cases/bindweed-ninepatch.yaml';
const APPROVED = 'cases/orchard-ladder.yaml';
const COMMANDS: readonly (readonly [name: string, args: readonly string[]])[] = [
  ['node -e 0', ['-e', '0']],
  ['--help', ['dist/main.js', '--help']],
  ['decide --quick --json', ['dist/main.js', 'decide', CASE, '--quick', '--json']],
  ['decide --json', ['dist/main.js', 'decide', CASE, '--json']],
  ['decide --quick --json, approved', ['dist/main.js', 'decide', APPROVED, '--quick', '--json']],
];

/** Milliseconds of one whole process. What is printed goes into a pipe, as to a script that reads it. */
const timed = (name: string, args: readonly string[]): number => {
  const start = performance.now();
  const { status } = spawnSync(process.execPath, [...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  if (status !== 0) throw new Error(`${name} ended with ${status}`);
  return performance.now() - start;
};
const times = COMMANDS.map((): number[] => []);
for (let round = 0; round < ROUNDS; round += 1)
  for (const [index, [name, args]] of COMMANDS.entries()) times[index]?.push(timed(name, args));
const median = (list: readonly number[]): number =>
  [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
const empty = median(times[0] ?? []);
console.log(
  `Node ${process.version}, ${cpus().length} cores (${cpus()[0]?.model}), ${ROUNDS} rounds, medians`,
);
for (const [index, [name]] of COMMANDS.entries()) {
  const took = median(times[index] ?? []);
  console.log(`${name}: ${took.toFixed(0)} ms, ${(took / empty).toFixed(2)} × node -e 0`);
}

// One case is no measure for all: each in turn, beside an empty Node of its own.
const CASES = readdirSync('cases').filter((name) => name.endsWith('.yaml'));
const ratios = CASES.map((name) => {
  const args = ['dist/main.js', 'decide', `cases/${name}`, '--quick', '--json'];
  const [plain, quick]: [number[], number[]] = [[], []];
  timed(name, args);
  for (let round = 0; round < ROUNDS; round += 1) {
    plain.push(timed('node -e 0', ['-e', '0']));
    quick.push(timed(name, args));
  }
  return { name, ratio: median(quick) / median(plain) };
}).sort((a, b) => a.ratio - b.ratio);
const mean = ratios.reduce((sum, { ratio }) => sum + ratio, 0) / ratios.length;
const [least, most] = [ratios[0], ratios.at(-1)].map((each) => `${each?.ratio.toFixed(2)} × (${each?.name})`);
console.log(
  `decide --quick --json, ${ratios.length} cases: mean ${mean.toFixed(2)} ×, from ${least} to ${most}`,
);
