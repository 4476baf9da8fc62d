// Whole processes of the built command as ratios to an empty Node, taken in turn so that a busy machine is busy for all.
import { spawnSync } from 'node:child_process';
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
const times = COMMANDS.map((): number[] => []);
for (let round = 0; round < ROUNDS; round += 1) {
  for (const [index, [name, args]] of COMMANDS.entries()) {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, [...args], { stdio: 'ignore' });
    if (status !== 0) throw new Error(`${name} ended with ${status}`);
    times[index]?.push(performance.now() - start);
  }
}
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
