import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { flat, type Ran, run as runIn, words } from './run.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
let folder: string;

const run = (...args: string[]): Promise<Ran> => runIn(folder, ...args);

const fileOf = (name: string): string => readFileSync(join(folder, 'cases', name), 'utf8');

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-experience-'));
  cpSync(join(ROOT, 'rules'), join(folder, 'rules'), { recursive: true });
  mkdirSync(join(folder, 'cases'));
  for (const name of readdirSync(join(ROOT, 'cases', 'demo'))) {
    if (/^(kiln|barley|foundry|lock|north|goose|dovecote)/.test(name))
      cpSync(join(ROOT, 'cases', 'demo', name), join(folder, 'cases', name));
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('helpers', { timeout: 120_000 }, () => {
  test('put first what changes the answer, with the signs to look for; the page is one file without script', async () => {
    const { code, out } = await run('helpers', 'kiln-yard-squares');
    expect(code).toBe(0);
    expect(flat(out)).toContain('1. The rust print: how fragile the fabric is (kiln-yard-squares)');
    expect(flat(out)).toContain('Changes the answer in 4 of 4 mixtures.');
    expect(out).toContain('pinch');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    const page = (await run('helpers', 'kiln-yard-squares', '--html', '-')).out;
    expect(page).toContain('<h3>1. The rust print: how fragile the fabric is (kiln-yard-squares)</h3>');
    expect(page).not.toMatch(/<script|https?:/);
  });

  test('decide asks for a joint look and keeps the first survey’s answer; --json carries it', async () => {
    const { code, err, out } = await run('decide', 'kiln-yard-squares', '--json');
    expect(code).toBe(0);
    expect(flat(err)).toContain('Look at it together before anything is promised');
    const answer: unknown = JSON.parse(out);
    expect(answer).toMatchObject({
      treatment: 'reassemble',
      surveys: { helpers: [{}, {}, { treatment: 'backing' }] },
    });
    expect((await run('decide', 'lock-keepers-stripes', '--json', '--quick')).out).not.toContain('"surveys"');
    expect((await run('decide', 'north-quay-ladder')).err).not.toContain('together before');
  });

  test('a second survey is blind, and stands in a file of its own', async () => {
    const asked = await run(
      ...words('survey goose-marsh-rail --as helper-b --yes --set'),
      'survey.seen=in hand',
      '--set',
      'survey.families.A.fragility=weak',
    );
    expect(asked.code).toBe(0);
    const text = fileOf('goose-marsh-rail.helper-b.yaml');
    expect(text).toContain('survey_of: goose-marsh-rail');
    expect(text).not.toMatch(/backing|units:|joins|fragility: sound|odour/);
    const again = await run(
      ...words('survey goose-marsh-rail --as helper-b --yes --set'),
      'survey.seen=in hand',
    );
    expect(again.code).toBe(2);
    expect(again.err).toContain('has surveyed goose-marsh-rail already');
    expect(fileOf('goose-marsh-rail.helper-b.yaml')).toBe(text);
    expect((await run('survey', 'goose-marsh-rail', '--as', 'helper-c', '--yes')).err).toContain(
      'made the first survey',
    );
  });

  test('a sample is graded again blind, unit by unit, and what is no unit of it is refused whole', async () => {
    const units: unknown = JSON.parse((await run('regrade', 'foundry-row-fourpatch', '--json')).out);
    const names = (units as { units: string[] }).units;
    expect(names).toHaveLength(10);
    const shown = (await run('regrade', 'foundry-row-fourpatch')).out;
    expect(shown).toContain(names.join(', ').slice(0, 20));
    const wrong = await run(
      'regrade',
      'foundry-row-fourpatch',
      `${names[0]}=hole`,
      'Z99=sound',
      'A=worm',
      '--as',
      'helper-b',
    );
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('2 errors');
    expect(readdirSync(join(folder, 'cases'))).not.toContain('foundry-row-fourpatch.helper-b.yaml');
    expect(
      (
        await run(
          'regrade',
          'foundry-row-fourpatch',
          `${names[0]}=hole`,
          `${names[1]}=.`,
          'A=weak',
          '--as',
          'helper-b',
        )
      ).code,
    ).toBe(0);
    expect(fileOf('foundry-row-fourpatch.helper-b.yaml')).toContain('A: { fragility: weak }');
  });

  test('a survey of a case that is not there is named with its line', async () => {
    const stray = join(folder, 'cases', 'nobody-knows.helper-b.yaml');
    writeFileSync(
      stray,
      'mendwise: 1\nsurvey_of: nobody-knows\nby: helper-b\nsurvey: { seen: in hand, by: helper-b }\n',
    );
    const { code, err } = await run('helpers');
    expect(code).toBe(2);
    expect(err).toContain('nobody-knows.helper-b.yaml:2:12');
    expect(flat(err)).toContain('there is no such case');
    rmSync(stray);
  });
});

describe('follow-up and learning', { timeout: 120_000 }, () => {
  test('what is due is listed, written down, and then due no longer', async () => {
    const due = async (): Promise<string> => (await run('cases', '--due', '--as-of', '2026-11-27')).out;
    expect(await due()).toContain('goose-marsh-rail');
    const before = fileOf('goose-marsh-rail.yaml');
    const refused = await run('followup', 'goose-marsh-rail', '--on', '2024-01-01', '--due', 'no');
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('comes before the work was done');
    const toomany = await run('followup', 'goose-marsh-rail', '--on', '2026-11-20', '--old-cloth', '400');
    expect(toomany.err).toContain('but this quilt has 63 units in all');
    expect(fileOf('goose-marsh-rail.yaml')).toBe(before);
    const told = await run(
      ...words(
        'followup goose-marsh-rail --on 2026-11-20 --seen told --use child_bed --washings 3 --old-joins 1 --due no --choose-again yes',
      ),
    );
    expect(told.code).toBe(0);
    expect(flat(told.err)).toContain('held 2.7 years so far');
    expect(await due()).not.toContain('goose-marsh-rail');
    const after = fileOf('goose-marsh-rail.yaml').split('\n');
    expect(before.split('\n').filter((line) => !after.includes(line))).toEqual([]);
  });

  test('nothing said is no follow-up', async () => {
    expect((await run('followup', 'barley-strips')).code).toBe(3);
  });

  test('hours are logged by operation, in hours or minutes, and never for work that is none', async () => {
    const before = fileOf('barley-strips.yaml');
    const wrong = await run('log', 'barley-strips', 'clozing seams', '2h');
    expect(wrong.code).toBe(2);
    expect(wrong.err.replace(/\s+/g, ' ')).toContain('closing seams from the front');
    expect((await run('log', 'barley-strips', 'supports', 'soon')).err).toContain('cannot be read as hours');
    expect((await run('log', 'barley-strips', 'supports', '0h')).code).toBe(2);
    expect(fileOf('barley-strips.yaml')).toBe(before);
    expect((await run('log', 'barley-strips', 'supports', '1h30', '--on', '2023-06-01')).code).toBe(0);
    expect((await run('log', 'barley-strips', 'supports', '45min', '--on', '2023-06-02')).err).toContain(
      '0.75 h',
    );
    expect(fileOf('barley-strips.yaml')).toContain('operation: supports, hours: 1.5');
  });

  test('proposals wait to be accepted; accepting keeps the old figure and every other line', async () => {
    const rules = join(folder, 'rules', 'figures.yaml');
    const before = readFileSync(rules, 'utf8');
    const { code, out } = await run('learned', '--json');
    expect(code).toBe(0);
    const { proposals } = JSON.parse(out) as {
      proposals: { figure: string; proposed: number; now: number }[];
    };
    const one = proposals.find(({ proposed, now }) => proposed !== now);
    if (one === undefined) throw new Error('nothing is proposed');
    expect(readFileSync(rules, 'utf8')).toBe(before);
    const near = await run('learned', '--accept', `${one.figure}x`);
    expect(near.code).toBe(2);
    expect(near.err).toContain(`did you mean "${one.figure}"?`);
    expect((await run('learned', '--accept', one.figure)).code).toBe(0);
    const after = readFileSync(rules, 'utf8');
    const old = before.split('\n');
    expect(after.split('\n').filter((line, index) => line !== old[index])).toHaveLength(1);
    expect(after).toContain('evidence: studio experience');
    const again = await run('learned', '--accept', one.figure);
    expect(again.err).toContain('Nothing to change');
    expect(readFileSync(rules, 'utf8')).toBe(after);
    expect((await run('decide', 'barley-strips', '--quick')).code).toBe(0);
  });
});
