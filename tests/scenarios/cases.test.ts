import { spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, test } from 'vitest';
import type { ListedCase } from '../../src/store/case-list.ts';
import { run, runBuilt } from './run.ts';

const NAMES = ['bindweed-ninepatch', 'trunk-find', 'opera-cloak-crazy', 'message-with-pictures'];

let folder: string;
const at = (...parts: string[]): string => join(folder, ...parts);
const list = async (...args: string[]): Promise<ListedCase[]> => {
  const { code, out, err } = await run(folder, 'cases', '--json', '--as-of', '2026-11-27', ...args);
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as ListedCase[];
};
const edit = (name: string, from: string | RegExp, to: string): void => {
  const path = at('cases', `${name}.yaml`);
  const text = readFileSync(path, 'utf8');
  expect(text).toMatch(from);
  writeFileSync(path, text.replace(from, to));
};
const keptNames = (): string[] =>
  readdirSync(at('cache', 'mendwise')).filter((each) => /^list-.*\.json$/.test(each));
const keptFile = (): string => at('cache', 'mendwise', keptNames()[0] ?? '');
const POLLING = { timeout: 30_000, interval: 5 };

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-cases-'));
  mkdirSync(at('cases'));
  for (const name of NAMES) {
    const text = readFileSync(join('cases', `${name}.yaml`), 'utf8');
    // Without what they expect, as a studio's own cases are.
    writeFileSync(at('cases', `${name}.yaml`), text.replace(/^expect:.*\n(?: .*\n|\n)*/m, ''));
  }
  process.env.XDG_CACHE_HOME = at('cache');
});
afterEach(() => {
  process.env.XDG_CACHE_HOME = inject('caches');
  rmSync(folder, { recursive: true, force: true });
});

describe('the list of cases', () => {
  test('says of every case what its decision of record says', async () => {
    for (const { case: name, standing, treatment, provisional } of await list()) {
      const { out } = await run(folder, 'decide', name, '--quick', '--json', '--as-of', '2026-11-27');
      expect({ name, ...JSON.parse(out) }).toMatchObject({ name, standing, treatment, provisional });
    }
  });

  test('comes out the same from what was kept as from the cases themselves', async () => {
    const first = await list();
    expect(readFileSync(keptFile(), 'utf8').length).toBeGreaterThan(200);
    expect(await list()).toEqual(first);
    rmSync(at('cache'), { recursive: true });
    expect(await list()).toEqual(first);
  });

  test('decides a case anew once its text is another, and no case from what was cut short', async () => {
    const [before] = (await list()).filter(({ case: name }) => name === 'bindweed-ninepatch');
    edit('bindweed-ninepatch', /^survey:\n/m, 'survey:\n  x-none: { sewage_or_fuel: yes }\n');
    const broken = await run(folder, 'cases', '--json', '--as-of', '2026-11-27');
    expect(broken.out).toContain('unknown-key');
    expect(before?.standing).not.toBe('decline');
    writeFileSync(keptFile(), readFileSync(keptFile(), 'utf8').slice(0, 300));
    edit('bindweed-ninepatch', /^ {2}x-none: .*\n/m, '');
    expect((await list()).find(({ case: name }) => name === 'bindweed-ninepatch')).toEqual(before);
  });

  test('decides anew once the rules are others', async () => {
    cpSync('rules', at('rules'), { recursive: true });
    const before = await list();
    expect(keptNames()).toHaveLength(1);
    const path = at('rules', 'figures.yaml');
    writeFileSync(path, `${readFileSync(path, 'utf8')}\n# looked at again\n`);
    expect(await list()).toEqual(before);
    // What was listed by the other rules is kept under a key of its own.
    expect(keptNames()).toHaveLength(2);
  });

  test('tells what is due on the day it is asked, not on the day it was kept', async () => {
    edit('bindweed-ninepatch', /^survey:\n/m, 'completed: { on: 2026-09-10 }\nsurvey:\n');
    const due = async (day: string): Promise<unknown> =>
      (JSON.parse((await run(folder, 'cases', '--json', '--as-of', day)).out) as ListedCase[]).find(
        ({ case: name }) => name === 'bindweed-ninepatch',
      )?.followup_due;
    expect(await due('2026-10-01')).toBeNull();
    expect(await due('2027-04-01')).toMatchObject({ months: 6, on: '2027-03-10' });
    expect(await due('2026-10-01')).toBeNull();
  });

  test('broken off, goes on the next time from where it had come', async () => {
    const text = readFileSync(at('cases', 'trunk-find.yaml'), 'utf8');
    for (let number = 0; number < 420; number += 1)
      writeFileSync(at('cases', `trunk-${number}.yaml`), text.replace(/^case: .*/m, `case: trunk-${number}`));
    const child = spawn(process.execPath, [inject('built'), 'cases', '--as-of', '2026-11-27'], {
      cwd: folder,
      stdio: 'ignore',
    });
    const ended = new Promise((done) => child.on('exit', (_, signal) => done(signal)));
    await expect.poll(() => existsSync(at('cache', 'mendwise')) && keptNames().length, POLLING).toBe(1);
    child.kill('SIGKILL');
    expect(await ended).toBe('SIGKILL');
    // Kept after 200 lines or after 400, and in no way after all of them.
    const [, body = ''] = readFileSync(keptFile(), 'utf8').split('\n');
    const lines = Object.keys(JSON.parse(body) as object).length;
    expect([200, 400]).toContain(lines);
    const { err } = runBuilt(folder, 'cases', '--as-of', '2026-11-27');
    const left = 420 + NAMES.length - lines;
    expect(err).toBe(left > 200 ? `Deciding ${left} cases anew; the next list will come at once.\n` : '');
    const { out } = runBuilt(folder, 'cases', '--json', '--as-of', '2026-11-27');
    expect(JSON.parse(out)).toHaveLength(420 + NAMES.length);
  });

  test('goes without keeping where the cache cannot be written', async () => {
    writeFileSync(at('cache'), 'a file where a folder should be');
    expect(await list()).toHaveLength(NAMES.length);
    expect(await list()).toHaveLength(NAMES.length);
  });
});
