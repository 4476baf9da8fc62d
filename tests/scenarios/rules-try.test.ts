import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { run } from './run.ts';

const SHIPPED = fileURLToPath(new URL('../../', import.meta.url));
let here = '';

const edit = (folder: string, file: string, from: string | RegExp, to: string): void => {
  const path = join(here, folder, file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${file} does not hold what is to be changed`);
  writeFileSync(path, after);
};

/** A studio with the shipped rules, all shipped cases, a candidate with one rule stricter, and one lacking a figure. */
beforeAll(() => {
  here = mkdtempSync(join(tmpdir(), 'try-'));
  for (const folder of ['rules', 'next', 'lacking'])
    cpSync(join(SHIPPED, 'rules'), join(here, folder), { recursive: true });
  mkdirSync(join(here, 'cases'));
  for (const name of readdirSync(join(SHIPPED, 'cases')).filter((each) => each.endsWith('.yaml')))
    cpSync(join(SHIPPED, 'cases', name), join(here, 'cases', name));
  edit('next', 'stages/joining.yaml', 'at least: fragile', 'at least: weak');
});
afterAll(() => rmSync(here, { recursive: true, force: true }));

const tryOut = (...more: string[]) =>
  run(here, 'rules', 'try', '--with', 'next', '--as-of', '2099-01-01', ...more);

describe('rules try on generated cases', () => {
  it('says how many change, in what and because of which rule, and ends with 1', () => {
    const { code, out, err } = tryOut('--generated', '60', '--json');
    expect(err).toBe('');
    expect(code).toBe(1);
    const told = JSON.parse(out);
    expect(told).toMatchObject({ generated: 60, cases: 60, unread: 0, seed: 1 });
    expect(told.rules_changed).toEqual(['no-stitch-into-fragile-cloth']);
    expect(told.because).toEqual({ 'no-stitch-into-fragile-cloth': told.changed });
    expect(told.of.standing).toBeGreaterThan(0);
    // The gravest come first, each with its case file.
    expect(told.examples[0].changes.map(({ of }: { of: string }) => of)).toContain('standing');
    const [{ case: name, text, changes }] = told.examples;
    writeFileSync(join(here, 'cases', `${name}.yaml`), text);
    const decided = run(here, 'decide', name, '--json', '--quick', '--as-of', '2099-01-01');
    rmSync(join(here, 'cases', `${name}.yaml`));
    expect(decided.err).toBe('');
    const standing = changes.find(({ of }: { of: string }) => of === 'standing');
    expect(JSON.parse(decided.out).standing).toBe(standing.from);
  }, 180_000);

  it('prints the same bytes however many threads work, and others for another seed', () => {
    const [one, two, three] = ['1', '2', '3'].map((count) =>
      tryOut('--generated', '130', '--workers', count),
    );
    expect(one?.out).toMatch(/of 130 generated cases \(seed 1\) change/);
    expect(two).toEqual(one);
    expect(three).toEqual(one);
    expect(tryOut('--generated', '130', '--seed', '2').out).not.toBe(one?.out);
  }, 300_000);

  it('exits 0 where nothing changes', () => {
    const { code, out } = run(here, 'rules', 'try', '--with', 'rules', '--generated', '40');
    expect(out).toMatch(/^0 cases \(0 %\) of 40 generated cases \(seed 1\) change; 0 rules differ\./);
    expect(code).toBe(0);
  }, 120_000);

  it.each([
    [['--generated', 'many'], /--generated is "many"; it should be a whole number from 1 to/],
    [['--generated', '0'], /--generated is "0"/],
    [
      ['--generated', '5', '--workers', '2.5'],
      /--workers is "2\.5"; it should be a whole number from 1 to 256/,
    ],
    [['--seed', '4'], /--seed says which cases to generate/],
  ])('refuses %s and says what to write', (given, said) => {
    const { code, err } = tryOut(...given);
    expect(err.replace(/\s+/g, ' ')).toMatch(said);
    expect(code).toBe(2);
  });

  it('tells a fault met in a thread as it is told without threads', () => {
    edit('lacking', 'figures.yaml', /^(\s+)queue_weeks:/m, '$1queue_weeks_once:');
    const [one, two] = ['1', '2'].map((count) =>
      run(here, 'rules', 'try', '--with', 'lacking', '--generated', '50', '--workers', count),
    );
    expect(one?.err).toMatch(/queue_weeks/);
    expect(one?.err).not.toMatch(/\bat .*\.js:\d/);
    expect(two).toEqual(one);
    expect(two?.code).toBe(2);
  }, 120_000);

  it('ends at once when interrupted', async () => {
    const args = ['rules', 'try', '--with', 'next', '--generated', '1000000', '--workers', '2'];
    const child = spawn(process.execPath, [inject('built'), ...args], { cwd: here, stdio: 'ignore' });
    await new Promise((wait) => setTimeout(wait, 4000));
    const asked = performance.now();
    child.kill('SIGINT');
    const [code, signal] = await once(child, 'exit');
    expect(code === 130 || signal === 'SIGINT').toBe(true);
    expect(performance.now() - asked).toBeLessThan(2000);
  }, 60_000);
});

describe('rules try on the casebook', () => {
  it('prints the same bytes however many threads work', () => {
    const [one, two] = ['1', '2'].map((count) => tryOut('--json', '--workers', count));
    const told = JSON.parse(one?.out ?? '');
    expect(told.cases).toBeGreaterThan(20);
    expect(told.changes.length).toBeGreaterThan(0);
    expect(two).toEqual(one);
  }, 300_000);
});
