import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { run } from '../scenarios/run.ts';
import { FULL } from '../tiers.ts';
import { DEAD, firstCaseIn, freshStudio } from './studio.ts';

interface Run {
  readonly nth: number;
  readonly calls: number;
  readonly failed: string;
  readonly code: number;
  readonly out: string;
  readonly err: string;
  readonly files: readonly (readonly [path: string, content: string])[];
}

const at = freshStudio();
const name = firstCaseIn(at);

const failing = (way: 'refuse' | 'fill', from: number, step: number, typed: readonly string[]): Run[] => {
  const scratch = join(dirname(at()), 'scratch');
  mkdirSync(scratch, { recursive: true });
  // Rules read once serve all runs: the cache is the test's own.
  const env = { ...process.env, XDG_CACHE_HOME: join(scratch, 'cache'), NO_COLOR: '1' };
  const args = [inject('built'), at(), scratch, way, String(from), String(step), ...typed];
  const script = new URL('fail-nth.cjs', import.meta.url).pathname;
  const { stdout, stderr } = spawnSync(process.execPath, [script, ...args], {
    encoding: 'utf8',
    env,
    maxBuffer: 1e9,
  });
  rmSync(scratch, { recursive: true, force: true });
  expect(stderr).toBe('');
  return stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
};

const read = (folder: string, below = ''): [string, string][] =>
  readdirSync(join(folder, below), { withFileTypes: true }).flatMap((entry): [string, string][] => {
    const path = join(below, entry.name);
    return entry.isDirectory() ? read(folder, path) : [[path, readFileSync(join(folder, path), 'latin1')]];
  });

const nothing = (): void => undefined;

/** Every command that writes, as typed (CASE and VERSION are filled in), and what makes the ground for it. */
const COMMANDS: [typed: string, before: () => unknown][] = [
  ['log CASE supports 2h --on 2026-11-01', nothing],
  [
    'followup CASE --seen told --use guest_bed --washings 1 --old-joins 0 --due no --completed 2026-05-01 --on 2026-11-01 --treatment reassemble',
    nothing,
  ],
  ['decide CASE --record --quick --as-of 2026-11-27', nothing],
  ['enquiry star-quilt --set quilt.size.width=72in --set quilt.size.height=80in --set damp=no', nothing],
  ['survey CASE --set seen=in_hand --set damp=no', nothing],
  [
    'rules amend light-loss-stays-closed --set title=Stays-closed --because Six-held. --on 2026-12-25',
    nothing,
  ],
  ['rules retire light-loss-stays-closed --because Six-held. --on 2026-12-25', nothing],
  ['sheet CASE --quick --as-of 2026-11-27 --out sheet.html', nothing],
  ['restore CASE VERSION', () => run(at(), 'log', name(), 'supports', '2h')],
  ['doctor --mend', () => writeFileSync(at('cases', `.a.yaml.1.${DEAD}.tmp`), 'half')],
  ['start another', nothing],
];

const filledIn = (typed: string): string[] =>
  typed.split(' ').map((word) => {
    if (word === 'CASE') return name();
    if (word !== 'VERSION') return word.replace('seen=in_hand', 'seen=in hand');
    const [kept = ''] = readdirSync(at('cases', '.history'));
    return kept.slice(name().length + 1, -'.yaml'.length);
  });

describe.each([
  ['refuse', 'is refused'],
  ['fill', 'fills the disk half-way'],
] as const)('when any one call to the file system %s', (way, how) => {
  it.each(COMMANDS)(
    `%s leaves every file whole and says what it could not do where a call ${how}`,
    async (typed, before) => {
      await before();
      const old = new Map(read(at()));
      // Reading comes first and is the same for all; without the full size only a share of the calls is tried.
      const step = FULL ? 1 : way === 'refuse' ? 83 : 97;
      const [clean, ...runs] = failing(way, 1, step, filledIn(typed));
      expect([0, 1]).toContain(clean?.code);
      const whole = new Set([...old.values(), ...(clean?.files.map(([, content]) => content) ?? [])]);
      expect(runs.length).toBeGreaterThan(0);
      for (const { nth, failed, code, out, err, files } of runs) {
        const where = `call ${nth}, ${failed}: ${err}`;
        expect(`${out}${err}`, where).not.toMatch(/^\s+at .+:\d+:\d+/m);
        expect(err, where).not.toContain('[internal]');
        // What is done is done wholly, or not done and said so.
        if (code === 0)
          expect(new Set(files.map(([, content]) => content)), where).toEqual(
            new Set(clean?.files.map(([, content]) => content)),
          );
        else if (code !== 1) expect(err.length, where).toBeGreaterThan(20);
        for (const [path, content] of files)
          expect(whole.has(content), `${where}\n${path} is torn`).toBe(true);
        for (const [path, content] of old) {
          const now = files.find(([each]) => each === path)?.[1];
          if (!/\.(tmp|lock)$/.test(path))
            expect(
              [content, clean?.files.find(([each]) => each === path)?.[1]],
              `${where}\n${path}`,
            ).toContain(now);
        }
      }
    },
  );
});
