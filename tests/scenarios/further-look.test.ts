import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, test } from 'vitest';
import { type Ran, run } from './run.ts';
import { Session } from './session.ts';

const CASE = `# Kept by hand: this note stays.
mendwise: 1
case: small-quilt
opened: 2026-03-02
quilt:
  size: { width: 36 in, height: 27 in } # measured in three places
  layout: { kind: edge to edge, rows: 3, columns: 4, finished: 9 in x 9 in }
survey:
  seen: in hand
  on: 2026-03-05
  families:
    A: { name: indigo, fragility: sound }
  units: |
    . . . .
    . w . .
    . . . .
  findings:
    damp: no # asked by telephone
`;

let folder: string;
const file = (): string => readFileSync(join(folder, 'cases', 'small-quilt.yaml'), 'utf8');
const survey = (...args: string[]): Promise<Ran> => run(folder, 'survey', 'small-quilt', ...args);
const refused = async (...args: string[]): Promise<string> => {
  const { code, err, out } = await survey(...args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(file()).toBe(CASE);
  return err.replace(/\s+/g, ' ');
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-further-'));
  mkdirSync(join(folder, 'cases'));
  writeFileSync(join(folder, 'cases', 'small-quilt.yaml'), CASE);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a further look from one command', () => {
  test('says what squares are now; the first look, its comments and its map stay as they were', async () => {
    const { code, out } = await survey(
      '--set',
      'B3=x',
      '--set',
      'c1=hole',
      '--by',
      'helper-b',
      '--on',
      '2026-03-20',
    );
    expect(code).toBe(0);
    expect(out).toContain('B3: sound before, lost now');
    expect(out).toContain('C1: sound before, hole now');
    expect(file().startsWith(CASE)).toBe(true);
    // A map that the eye can read: one row a line.
    expect(file().slice(CASE.length)).toBe(`resurveys:
  - on: 2026-03-20
    by: helper-b
    units: |
      . . . .
      . w x .
      h . . .
`);
  });

  test('each look builds on the one before, and what was found inside goes with it', async () => {
    await survey('--set', 'B3=x', '--on', '2026-03-20');
    const { code, out } = await survey(
      ...['--opened', '--set', 'B3=.', '--set', 'A1=f', '--set', 'batting_kind=loose', '--on', '2026-03-21'],
      ...['--set', 'hidden_quilt=yes', '--photo', 'photos/inside.jpg'],
    );
    expect(code).toBe(0);
    expect(out).toContain('B3: lost before, sound now');
    const text = file();
    expect(text.startsWith(CASE)).toBe(true);
    expect(text).toMatch(/units: \|\n {6}f \. \. \.\n {6}\. w \. \.\n {6}\. \. \. \.\n/);
    expect(text).toMatch(/opened: yes/);
    expect(text).toMatch(/hidden_quilt: yes/);
    expect(text).toMatch(/file: photos\/inside.jpg, of: "?B3, A1"?, when: opened/);
    expect(JSON.parse((await run(folder, 'decide', 'small-quilt', '--json')).out)).toHaveProperty('standing');
  });

  test('gives a square two marks in either order, and takes the second away with the first', async () => {
    const { out } = await survey('--set', 'B3=fs', '--on', '2026-03-20');
    expect(out).toContain('B3: sound before, split and flattened now');
    expect(file()).toContain('      . w s .\n');
    expect(file()).toContain('also:\n      - B3 flattened\n');
    const mended = await survey('--set', 'B3=.', '--on', '2026-03-21');
    expect(mended.out).toContain('B3: split and flattened before, sound now');
    expect(file().split('also:')).toHaveLength(2);
    expect(await (await survey('--set', 'B3=f.', '--on', '2026-03-22')).err).toContain(
      'nothing goes with sound',
    );
  });

  test('points to the change order where the client had approved something else', async () => {
    expect((await survey('--set', 'B3=x', '--on', '2026-03-20')).out).not.toContain('--kind change');
    writeFileSync(
      join(folder, 'cases', 'small-quilt.yaml'),
      `${CASE}approved: { on: 2026-03-06, hours: 4, price: 200 }\n`,
    );
    const { out } = await survey('--opened', '--set', 'B3=x', '--on', '2026-03-20');
    expect(out).toContain('mendwise sheet small-quilt --kind change');
    const paper = await run(
      folder,
      'sheet',
      'small-quilt',
      '--kind',
      'change',
      '--out',
      '-',
      '--format',
      'text',
    );
    // Safety was never asked about in this case, and that comes before any approval.
    expect({ code: paper.code, said: /safety/.test(paper.err) }).toEqual({ code: 2, said: true });
  });

  test('a square that is not there, and a mark that is not there, both at once', async () => {
    const said = await refused('--set', 'D1=x', '--set', 'B9=x', '--set', 'B3=q');
    expect(said).toContain('there is no square D1 on the map');
    expect(said).toContain('Rows are A to C, with up to 4 squares each');
    expect(said).toContain('there is no square B9');
    expect(said).toContain('"q" for B3 is not a mark of the map');
    expect(said).toContain('x lost');
  });

  test('a look before the first, and one still to come', async () => {
    expect(await refused('--set', 'B3=x', '--on', '2026-03-01')).toContain(
      'a further look on 2026-03-01 would come before the one on 2026-03-05',
    );
    expect(await refused('--set', 'B3=x', '--on', '2999-01-01')).toContain('which has not come yet');
  });

  test('a square where there is no map yet', async () => {
    const bare = CASE.replace(/ {2}units: \|\n( {4}.*\n)+? {2}findings/, '  findings');
    writeFileSync(join(folder, 'cases', 'small-quilt.yaml'), bare);
    const { code, err } = await survey('--set', 'B3=x');
    expect(code).toBe(2);
    expect(err).toContain('has no map of its squares yet');
    expect(err).toContain('mendwise survey small-quilt');
  });

  test('what the client wishes is no part of it', async () => {
    expect(await refused('--set', 'B3=x', '--set', 'budget=900')).toContain(
      'client is no part of a further look',
    );
  });
});

describe('one answer corrected', () => {
  let session: Session | undefined;
  afterEach(() => session?.close());

  test('puts the one question with its answer and nothing else, and keeps the file as it was around it', async () => {
    const command = [process.execPath, inject('built'), 'survey', 'small-quilt', '--change', 'damp'];
    session = new Session(command, { cwd: folder });
    await session.answer('(now: no; Enter keeps it)', 'yes');
    expect(await session.end()).toBe(0);
    expect(session.screen).not.toContain('Stop here');
    expect(file()).toBe(CASE.replace('damp: no #', 'damp: yes #'));
  });

  test('a finding there is not, with the nearest there is', async () => {
    const said = await refused('--change', 'dmap');
    expect(said).toContain('no question here is called "dmap"');
    expect(said).toContain('damp');
  });

  test('where nobody can be asked it says how to give the answer', async () => {
    const { code, err } = await survey('--change', 'damp');
    expect(code).toBe(3);
    expect(err.replace(/\s+/g, ' ')).toContain('mendwise survey small-quilt --set "survey.findings.damp=…"');
  });
});
