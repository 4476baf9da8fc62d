import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { shipped } from '../decision/shipped.ts';
import { generatedCase, nameOf, textOf } from '../tools/generated-case.ts';
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

interface Told {
  readonly case: string;
  readonly changes: readonly { readonly of: string; readonly from: string }[];
}

/** Invented cases. */
const writeCases = (folder: string, count: number): void => {
  mkdirSync(folder);
  for (let number = 1; number <= count; number += 1)
    writeFileSync(
      join(folder, `${nameOf(1, number)}.yaml`),
      textOf(generatedCase(shipped.vocabulary, 1, number)),
    );
};

/** A studio with the shipped rules, all shipped cases, a candidate with one rule stricter, and one lacking a figure. */
beforeAll(() => {
  here = mkdtempSync(join(tmpdir(), 'try-'));
  for (const folder of ['rules', 'next', 'lacking'])
    cpSync(join(SHIPPED, 'rules'), join(here, folder), { recursive: true });
  writeCases(join(here, 'cases'), 60);
  for (const name of readdirSync(join(SHIPPED, 'cases')).filter((each) => each.endsWith('.yaml')))
    cpSync(join(SHIPPED, 'cases', name), join(here, 'cases', name));
  edit('next', 'stages/joining.yaml', 'at least: fragile', 'at least: weak');
});
afterAll(() => rmSync(here, { recursive: true, force: true }));

const TRY = ['rules', 'try', '--with', 'next', '--as-of', '2099-01-01'];
const tryOut = (...more: string[]) => run(here, ...TRY, ...more);

describe('rules try on the casebook', () => {
  it('says how many change, in what and because of which rule, and ends with 1', async () => {
    const { code, out, err } = await tryOut('--json');
    expect(err).toBe('');
    expect(code).toBe(1);
    const told = JSON.parse(out);
    expect(told.cases).toBeGreaterThan(60);
    expect(told.rules_changed).toEqual(['no-stitch-into-fragile-cloth']);
    expect(told.changes.length).toBeGreaterThan(0);
    for (const { because } of told.changes) expect(because).toEqual(['no-stitch-into-fragile-cloth']);
    const standing = told.changes
      .flatMap(({ case: name, changes }: Told) => changes.map((each) => ({ ...each, name })))
      .find(({ of }: { of: string }) => of === 'standing');
    const decided = await run(here, 'decide', standing.name, '--json', '--quick', '--as-of', '2099-01-01');
    expect(decided.err).not.toMatch(/error/);
    expect(JSON.parse(decided.out).standing).toBe(standing.from);
  }, 180_000);

  it('tells which figure the other rules lack', async () => {
    edit('lacking', 'figures.yaml', /^(\s+)queue_weeks:/m, '$1queue_weeks_once:');
    const { code, err } = await run(here, 'rules', 'try', '--with', 'lacking');
    expect(err).toMatch(/queue_weeks/);
    expect(err).not.toMatch(/\bat .*\.js:\d/);
    expect(code).toBe(2);
  });

  it('ends at once when interrupted', async () => {
    const many = join(here, 'many');
    cpSync(join(here, 'rules'), join(many, 'rules'), { recursive: true });
    writeCases(join(many, 'cases'), 1500);
    const args = ['rules', 'try', '--with', '../next'];
    const child = spawn(process.execPath, [inject('built'), ...args], { cwd: many, stdio: 'ignore' });
    await new Promise((wait) => setTimeout(wait, 2500));
    const asked = performance.now();
    child.kill('SIGINT');
    const [code, signal] = await once(child, 'exit');
    expect(code === 130 || signal === 'SIGINT').toBe(true);
    expect(performance.now() - asked).toBeLessThan(2000);
  }, 60_000);
});
