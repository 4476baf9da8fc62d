import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, test } from 'vitest';
import { flat, type Ran, run } from './run.ts';
import { Session } from './session.ts';

/** Every finding by which a hazard is noted, as noted, as less of it, and not at all. */
const SIGNS = [
  ['mould', 'mould_area', '700 in2', '10 in2', '0 in2'],
  ['damp', 'damp', 'yes', 'no', 'unknown'],
  ['insects', 'live_pests', 'yes', 'no', 'unknown'],
  ['insects', 'pest_traces', 'grazing', 'cast_skins', 'none'],
  ['rodent_waste', 'rodent_waste', 'yes', 'no', 'unknown'],
  ['sewage_or_fuel', 'sewage_or_fuel', 'yes', 'no', 'unknown'],
  ['poison', 'old_green_or_pesticide', 'yes', 'no', 'unknown'],
  ['smell', 'odour', 'unbearable', 'in_the_room', 'none'],
] as const;

const CASE = `mendwise: 1
case: small-quilt
opened: 2026-03-02
quilt:
  size: { width: 36 in, height: 27 in }
  layout: { kind: edge to edge, rows: 3, columns: 4, finished: 9 in x 9 in }
survey:
  seen: in hand
  on: 2026-03-05
  units: |
    . . . .
    . w . .
    . . . .
  findings:
    damp: no
`;
const DONE = '{ how: as advised, by: helper-a, on: 2026-03-10, confirmed_by: letter 7 }';
const noting = (finding: string, value: string): string =>
  finding === 'damp' ? CASE.replace('damp: no', `damp: ${value}`) : `${CASE}    ${finding}: ${value}\n`;
const dealtWith = (hazard: string): string => `treated:\n  - ${DONE.replace('{', `{ hazard: ${hazard},`)}\n`;

let folder: string;
const path = (): string => join(folder, 'cases', 'small-quilt.yaml');
const file = (): string => readFileSync(path(), 'utf8');
const begin = (text: string): void => writeFileSync(path(), text);
const command = (name: string, ...args: string[]): Promise<Ran> => run(folder, name, 'small-quilt', ...args);
const survey = (...args: string[]): Promise<Ran> => command('survey', ...args);

/** Refused with these words, and the file is as it was. */
const refused = async (before: string, ran: Promise<Ran>): Promise<string> => {
  const { code, err, out } = await ran;
  expect([code, out, file()]).toEqual([2, '', before]);
  expect(flat(err)).toMatch(/error: .* Why: .* Do: /);
  return flat(err);
};
const standing = async (): Promise<string> =>
  JSON.parse((await command('decide', '--quick', '--json')).out).standing;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-noted-'));
  mkdirSync(join(folder, 'cases'));
  begin(CASE);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a hazard that was noted', () => {
  test.each(SIGNS)('%s: no other answer to %s takes it back', async (hazard, finding, noted, less, none) => {
    const before = noting(finding, noted);
    begin(before);
    for (const value of [less, none]) {
      const said = await refused(before, survey('--set', `${finding}=${value}`));
      expect(said).toContain('does not take it back [hazard-stands]');
      // The way out, whether it was dealt with or only a slip of the pen.
      expect(said).toContain('or if it was noted by mistake');
      expect(said).toContain(`mendwise treated small-quilt --hazard ${hazard}`);
    }
    // Neither does it from a file, nor an enquiry.
    writeFileSync(join(folder, 'part.yaml'), `survey: { findings: { ${finding}: ${none} } }\n`);
    await refused(before, survey('--from', join(folder, 'part.yaml')));
    await refused(before, command('enquiry', '--set', `${finding}=${less}`));
  });

  test('goes with no line that holds it: neither all findings nor the later looks are taken out', async () => {
    const inside = 'resurveys:\n  - { on: 2026-03-08, seen: in hand, findings: { damp: yes } }\n';
    const before = `${noting('rodent_waste', 'yes')}${inside}${dealtWith('damp')}`;
    begin(before);
    await refused(before, survey('--set', 'survey.findings=unknown'));
    for (const part of ['survey: { findings: }', 'survey:', 'resurveys: []', 'treated: []', 'resurveys:']) {
      writeFileSync(join(folder, 'part.yaml'), `${part}\n`);
      await survey('--from', join(folder, 'part.yaml'));
      expect(file(), part).toBe(before);
    }
    writeFileSync(join(folder, 'part.yaml'), dealtWith('rodent_waste'));
    const said = await refused(before, survey('--from', join(folder, 'part.yaml')));
    expect(said).toMatch(/no look at this quilt|are not written by a survey/);
  });

  test('told by telephone as "yes" it is not wiped by a "no" in hand, and the mistake can be said', async () => {
    const enquiry = ['--set', 'rodent_waste=yes', '--set', 'quilt.size.width=36 in'];
    rmSync(path());
    await command('enquiry', ...enquiry, '--set', 'quilt.size.height=27 in');
    const before = file();
    await refused(before, survey('--set', 'survey.seen=in hand', '--set', 'rodent_waste=no'));
    expect((await survey('--set', 'survey.seen=in hand')).code).toBe(0);
    expect(await standing()).toBe('not_yet');
    const mistake = ['--how', 'noted by mistake: they were seeds', '--by', 'helper-a'];
    expect(
      (await command('treated', '--hazard', 'rodent_waste', ...mistake, '--confirmed-by', 'helper-b')).code,
    ).toBe(0);
    expect(await standing()).not.toBe('not_yet');
    expect(file()).toContain('rodent_waste: yes');
  });

  test('more of it is taken: looking closer may find more', async () => {
    begin(noting('mould_area', '10 in2'));
    expect((await survey('--set', 'mould_area=700 in2')).code).toBe(0);
    expect(file()).toContain('mould_area: 700 in2');
  });

  test('put again in the terminal, "no" is asked for again', async () => {
    const before = noting('rodent_waste', 'yes');
    begin(before);
    const session = new Session(
      [process.execPath, inject('built'), 'survey', 'small-quilt', '--change', 'rodent_waste'],
      { cwd: folder },
    );
    await session.answer('(now: yes; Enter keeps it)', 'no');
    await session.answer('does not take it back', 'yes');
    expect(await session.end()).toBe(0);
    session.close();
    expect(file()).toBe(before);
  });

  test('dealt with, its first answer stays what was seen', async () => {
    const before = noting('rodent_waste', 'yes') + dealtWith('rodent_waste');
    begin(before);
    const said = await refused(before, survey('--set', 'rodent_waste=no'));
    expect(said).toContain('"treated" says what was done about it on 2026-03-10');
  });

  test('found again after it was dealt with, it is a further look with a day of its own', async () => {
    const inside = 'resurveys:\n  - { on: 2026-03-08, seen: in hand, findings: { live_pests: yes } }\n';
    const before = `${CASE}    live_pests: no\n${inside}${dealtWith('insects')}`;
    begin(before);
    const said = await refused(before, survey('--set', 'live_pests=yes'));
    expect(said).toContain('finding more of it is a further look');
    expect(await standing()).not.toBe('not_yet');
    const { code, out } = await survey('--on', '2026-03-10', '--set', 'live_pests=yes');
    expect([code, out]).toEqual([0, expect.stringContaining('Not yet')]);
    expect(await standing()).toBe('not_yet');
  });

  test('noted again on the day it was dealt with: what is written down says that the stop holds', async () => {
    const inside = 'resurveys:\n  - { on: 2026-03-10, seen: in hand, findings: { live_pests: yes } }\n';
    begin(`${noting('live_pests', 'yes')}${inside}`);
    const how = ['--how', 'two weeks at -25 C', '--by', 'helper-a', '--confirmed-by', 'letter 7'];
    const { code, err } = await command('treated', '--hazard', 'insects', ...how, '--on', '2026-03-10');
    expect([code, flat(err)]).toEqual([0, expect.stringContaining('the stop still holds')]);
    expect(await standing()).toBe('not_yet');
  });
});

describe('the day of a survey', () => {
  test('stays where the client’s wishes or one answer change, so what was dealt with stays so', async () => {
    begin(noting('rodent_waste', 'yes') + dealtWith('rodent_waste'));
    expect((await survey('--set', 'client.budget=500')).code).toBe(0);
    expect((await survey('--set', 'odour=none')).code).toBe(0);
    expect(file()).toContain('on: 2026-03-05');
    expect(file()).toContain('budget: 500');
    expect(await standing()).not.toBe('not_yet');
  });

  test('of a hazard noted at a later look and dealt with: the case can still be added to', async () => {
    const inside = 'resurveys:\n  - { on: 2026-03-08, seen: in hand, findings: { damp: yes } }\n';
    begin(`${CASE}${inside}${dealtWith('damp')}`);
    expect((await survey('--set', 'client.budget=500')).code).toBe(0);
  });

  test('is not one that has not come yet', async () => {
    expect(await refused(CASE, survey('--set', 'survey.on=2099-01-01'))).toContain(
      'survey.on is 2099-01-01, which has not come yet',
    );
  });
});

describe('a further look', () => {
  test('takes each answer and each square once, and none that changes nothing', async () => {
    expect(await refused(CASE, survey('--set', 'damp=yes', '--set', 'survey.findings.damp=no'))).toContain(
      'twice',
    );
    expect(await refused(CASE, survey('--set', 'B3=x', '--set', 'b3=h'))).toContain('B3 is given twice');
    expect(await refused(CASE, survey('--set', 'B2=w'))).toContain('B2 is worn already');
    expect(await refused(CASE, survey('--on', '2026-03-08', '--by', 'helper-b'))).toContain('nothing new');
  });

  test('says where the quilt stands now, and that a photograph is not there', async () => {
    const { code, out, err } = await survey('--opened', '--set', 'live_pests=yes', '--photo', 'nope.jpg');
    expect([code, out]).toEqual([0, expect.stringContaining('Not yet')]);
    expect(flat(err)).toContain('nope.jpg is not there yet');
  });
});

test('what is refused of a treatment has no place in a file it never got into', async () => {
  begin(noting('rodent_waste', 'yes'));
  const said = await refused(
    file(),
    command(
      'treated',
      '--hazard',
      'mold',
      '--how',
      'cleaned',
      '--by',
      'helper-a',
      '--confirmed-by',
      'letter',
    ),
  );
  expect(said).toContain('did you mean "mould"');
  expect(said).not.toMatch(/small-quilt\.yaml:\d/);
});
