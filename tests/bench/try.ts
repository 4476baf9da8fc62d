// `rules try` on a studio of invented cases by the built command: time, the exponent with which it grows in the
// number of cases, and the most memory the process ever took. In the candidate three marks are moved, as when a studio
// revises its rules; with BENCH_ALL also one in which a figure is changed besides, so that nothing can be shared.
// BENCH_SIZES are 100, 300 and 1000 unless given, BENCH_ROUNDS 1; of several rounds the fastest counts.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { openStudio } from '../../src/store/studio.ts';
import { generatedCase, nameOf, textOf } from '../tools/generated-case.ts';

const SIZES = (process.env.BENCH_SIZES ?? '100,300,1000').split(',').map(Number);
const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 1);
const AIM_EXPONENT = 1.05;
const main = resolve('dist/main.js');
const { knowledge } = await openStudio({ rules: 'rules' });
const folder = mkdtempSync(join(tmpdir(), 'mendwise-try-'));

const edit = (rules: string, file: string, from: string | RegExp, to: string): void => {
  const path = join(folder, rules, file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${file} does not hold what is to be changed`);
  writeFileSync(path, after);
};

interface Run {
  readonly seconds: number;
  readonly processorSeconds: number;
  readonly megabytes: number;
  readonly changed: number;
}

const tryOn = (cases: number, rules: string): Run => {
  const start = performance.now();
  const args = ['rules', 'try', '--with', resolve(folder, rules), '--json'];
  const { status, stdout, stderr } = spawnSync(
    '/usr/bin/time',
    ['-f', '%M %U %S', process.execPath, main, ...args],
    { cwd: join(folder, `${cases}`), encoding: 'utf8', maxBuffer: 1 << 30 },
  );
  if (status !== 0 && status !== 1) throw new Error(stderr);
  const [kilobytes = 0, user = 0, system = 0] = (stderr.trim().split('\n').at(-1) ?? '')
    .split(' ')
    .map(Number);
  return {
    seconds: (performance.now() - start) / 1000,
    processorSeconds: user + system,
    megabytes: kilobytes / 1000,
    changed: JSON.parse(stdout).changes.length,
  };
};

/** The slope of the least-squares line through the logarithms. */
const exponent = (points: readonly (readonly [size: number, value: number])[]): number => {
  const logs = points.map(([size, value]) => [Math.log(size), Math.log(value)] as const);
  const mean = (of: (point: readonly [number, number]) => number): number =>
    logs.reduce((sum, point) => sum + of(point), 0) / logs.length;
  const [x, y] = [mean(([each]) => each), mean(([, each]) => each)];
  const sum = (of: (point: readonly [number, number]) => number): number =>
    logs.reduce((total, point) => total + of(point), 0);
  return sum(([a, b]) => (a - x) * (b - y)) / sum(([a]) => (a - x) ** 2);
};

function report(name: string, rules: string): void {
  const points: { size: number; run: Run }[] = [];
  for (const size of SIZES) {
    const runs = Array.from({ length: ROUNDS }, () => tryOn(size, rules));
    const run = runs.toSorted((a, b) => a.seconds - b.seconds)[0];
    if (run === undefined) continue;
    points.push({ size, run });
    const share = ((100 * run.changed) / size).toFixed(1);
    console.log(
      `rules try, ${name}, ${size} cases (${share} % change): ${run.seconds.toFixed(1)} s, ${run.processorSeconds.toFixed(1)} s of processor, ${run.megabytes.toFixed(0)} MB at most`,
    );
  }
  if (points.length < 2) return;
  const [wall, processor] = [
    exponent(points.map(({ size, run }) => [size, run.seconds])),
    exponent(points.map(({ size, run }) => [size, run.processorSeconds])),
  ];
  console.log(
    `rules try, ${name}: grows with the ${wall.toFixed(3)}th power of the cases (aimed at ${AIM_EXPONENT} at most), its processor time with the ${processor.toFixed(3)}th`,
  );
}

try {
  for (const rules of ['rules', 'next', 'figure']) cpSync('rules', join(folder, rules), { recursive: true });
  for (const rules of ['next', 'figure']) {
    edit(rules, 'stages/joining.yaml', 'more than: 100 %', 'more than: 110 %');
    edit(rules, 'stages/extent.yaml', 'at most: 5 %', 'at most: 8 %');
    edit(rules, 'stages/extent.yaml', 'more than: 5 %', 'more than: 8 %');
  }
  edit('figure', 'figures.yaml', /^(\s+queue_weeks: .*value: )\d+/m, '$17');
  for (const size of SIZES) {
    cpSync('rules', join(folder, `${size}`, 'rules'), { recursive: true });
    mkdirSync(join(folder, `${size}`, 'cases'));
    for (let number = 1; number <= size; number += 1)
      writeFileSync(
        join(folder, `${size}`, 'cases', `${nameOf(1, number)}.yaml`),
        textOf(generatedCase(knowledge.vocabulary, 1, number)),
      );
  }
  report('three rules changed', 'next');
  if (process.env.BENCH_ALL !== undefined) report('rules and a figure changed', 'figure');
} finally {
  rmSync(folder, { recursive: true });
}
