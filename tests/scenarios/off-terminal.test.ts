import {
  existsSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, inject, test } from 'vitest';
import { run, words } from './run.ts';
import { Session } from './session.ts';

let folder: string;
const file = (name: string): string => join(folder, 'cases', `${name}.yaml`);
const SIZE = ['--set', 'quilt.size.width=72 in', '--set', 'quilt.size.height=80 in'];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-off-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('interviews where nobody can answer', () => {
  test('an enquiry without its size exits 3 and names each flag that is missing', async () => {
    const { code, out, err } = await run(folder, 'enquiry', 'star-quilt', '--set', 'damp=no');
    expect(code).toBe(3);
    expect(out).toBe('');
    expect(err).toContain('--set "quilt.size.width=72 in"');
    expect(err).toContain('--set "quilt.size.height=72 in"');
    expect(existsSync(file('star-quilt'))).toBe(false);
  });

  test('each answer keeps how it was known until somebody gives it with the quilt in hand', async () => {
    const said = async (): Promise<string> => readFileSync(file('star-quilt'), 'utf8').replace(/\s+/g, ' ');
    await run(folder, 'enquiry', 'star-quilt', ...SIZE, '--set', 'damp=no', '--set', 'mould_area=0 in2');
    expect(await said()).toContain('known_by: { width: told, height: told, damp: told, mould_area: told }');
    await run(folder, 'survey', 'star-quilt', '--set', 'seen=photos', '--set', 'odour=close', '--yes');
    expect(await said()).toMatch(/damp: told, mould_area: told, odour: photos/);
    await run(folder, 'survey', 'star-quilt', '--set', 'seen=in hand', '--set', 'damp=yes', '--yes');
    expect(await said()).toMatch(
      /known_by: \{ width: told, height: told, mould_area: told, odour: photos \}/,
    );
    const { code } = await run(folder, 'survey', 'star-quilt', '--opened', '--set', 'mould_area=4 in2');
    expect(code).toBe(0);
    // What the client reads says what rests on a word or on a picture; what was since found in hand does not.
    const { out } = await run(
      folder,
      'sheet',
      'star-quilt',
      '--kind',
      'survey',
      '--out',
      '-',
      '--format',
      'text',
    );
    const paper = out.replace(/\s+/g, ' ');
    expect(paper).toContain('Not checked in hand yet: its width (told to us), its height (told to us)');
    expect(paper).not.toContain('mould (told to us)');
  });

  test('without a name it exits 3 and says where the name goes', async () => {
    const { code, err } = await run(folder, 'enquiry', '--yes');
    expect(code).toBe(3);
    expect(err).toContain('mendwise enquiry NAME');
  });

  test('everything can be given by flags and a file; the answer is on stdout alone', async () => {
    writeFileSync(
      join(folder, 'more.yaml'),
      'client: { ref: C-014, budget: 900 }\nsurvey: { findings: { odour: close } }\n',
    );
    const { code, out, err } = await run(
      folder,
      'enquiry',
      'star-quilt',
      ...SIZE,
      '--set',
      'damp=no',
      '--set',
      'client.budget=1100',
      '--from',
      'more.yaml',
    );
    expect({ code, err: err.trim() }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Written to cases/star-quilt.yaml');
    const text = readFileSync(file('star-quilt'), 'utf8');
    for (const said of ['ref: C-014', 'budget: 1100', 'odour: close', 'damp: no', 'seen: photos'])
      expect(text).toContain(said);
  });

  test('a survey without how it was seen exits 3; with it, it writes', async () => {
    expect((await run(folder, 'enquiry', 'star-quilt', ...SIZE)).code).toBe(0);
    const lacking = await run(folder, 'survey', 'star-quilt', '--set', 'damp=no');
    expect(lacking.code).toBe(3);
    expect(lacking.err).toContain('--set "survey.seen=photos|in hand"');
    const given = await run(
      folder,
      ...words('survey star-quilt --yes --set'),
      'seen=in hand',
      '--set',
      'batting_kind=none',
    );
    expect(given.code).toBe(0);
    const text = readFileSync(file('star-quilt'), 'utf8');
    expect(text).toContain('seen: in hand');
    expect(text).toMatch(/batting:\s*(\{ kind: none \}|\n\s+kind: none)/);
  });

  test('a grade given from photos does not become one given in hand', async () => {
    const photos = ['--set', 'survey.families.A.fragility=sound', '--set', 'backing_fragility=worn'];
    await run(folder, 'enquiry', 'star-quilt', ...SIZE, ...photos);
    expect(readFileSync(file('star-quilt'), 'utf8')).toContain('fragility: sound');
    expect(
      (await run(folder, 'survey', 'star-quilt', '--set', 'seen=in hand', '--set', 'backing_fragility=weak'))
        .code,
    ).toBe(0);
    const text = readFileSync(file('star-quilt'), 'utf8');
    expect(text).not.toContain('fragility: sound');
    expect(text).toContain('fragility: weak');
  });

  test('a map is given with strokes between its rows, and held to the layout', async () => {
    await run(folder, 'enquiry', 'star-quilt', ...SIZE);
    const layout = ['kind=edge to edge', 'rows=2', 'columns=3'].flatMap((each) => [
      '--set',
      `quilt.layout.${each}`,
    ]);
    const seen = ['--set', 'seen=in hand'];
    const wrong = await run(
      folder,
      'survey',
      'star-quilt',
      ...seen,
      ...layout,
      '--set',
      'survey.units=. . . / x .',
    );
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('row B has 2 marks, but the layout has 3 units there');
    expect(
      (await run(folder, 'survey', 'star-quilt', ...seen, ...layout, '--set', 'survey.units=. . . / x . h'))
        .code,
    ).toBe(0);
    expect(readFileSync(file('star-quilt'), 'utf8')).toMatch(/\. \. \.\n\s+x \. h/);
  });

  test.each([
    ['damp=perhaps', 'damp wants yes or no'],
    ['quilt.size.width=72', 'without a unit'],
    ['damb=no', 'did you mean "damp"'],
    ['client.ref=Ada Example', 'cannot be the reference'],
    ['quilt.sise.width=72 in', 'did you mean "size"'],
    ['damp', 'has no value'],
  ])('--set %s is refused like a case file would refuse it', async (setting, message) => {
    const { code, err } = await run(folder, 'enquiry', 'star-quilt', ...SIZE, '--set', setting);
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(existsSync(file('star-quilt'))).toBe(false);
  });

  test('a fault in a file is shown in its place', async () => {
    writeFileSync(join(folder, 'more.yaml'), 'client:\n  wish: repiar\n');
    const { code, err } = await run(folder, 'enquiry', 'star-quilt', ...SIZE, '--from', 'more.yaml');
    expect(code).toBe(2);
    expect(err).toContain('more.yaml:2:9');
    expect(err).toContain('did you mean "repair"');
  });

  test('a person’s name is no name for a case', async () => {
    const { code, err } = await run(folder, 'enquiry', 'Ada Example', ...SIZE);
    expect(code).toBe(2);
    expect(err).toContain('[bad-name]');
  });

  test('a survey of a case that is not there names the nearest', async () => {
    await run(folder, 'enquiry', 'star-quilt', ...SIZE);
    const { code, err } = await run(folder, 'survey', 'star-qilt', '--set', 'seen=photos');
    expect(code).toBe(2);
    expect(err).toContain('did you mean "star-quilt"');
  });

  test('in a terminal, --yes asks nothing, and stdout holds the answer alone', async () => {
    const session = new Session(
      [
        '/bin/sh',
        '-c',
        `"${process.execPath}" "${inject('built')}" enquiry star-quilt --yes ${SIZE.map((each) => `"${each}"`).join(' ')} > out.txt`,
      ],
      { cwd: folder },
    );
    expect(await session.end()).toBe(0);
    expect(session.screen.trim()).toBe('');
    expect(readFileSync(join(folder, 'out.txt'), 'utf8')).toContain('Written to cases/star-quilt.yaml');
  });

  test('questions go to stderr: they can be answered while stdout goes to a file', async () => {
    const session = new Session(
      ['/bin/sh', '-c', `"${process.execPath}" "${inject('built')}" enquiry star-quilt > out.txt`],
      { cwd: folder },
    );
    await session.see('What is wrong with it?');
    session.type('\u0003');
    expect(await session.end()).toBe(130);
    expect(readFileSync(join(folder, 'out.txt'), 'utf8')).toBe('');
  });
});

describe('a studio from the start', () => {
  test('has rules of its own, though it was started from a link to others', async () => {
    symlinkSync(resolve('rules'), join(folder, 'linked'));
    expect((await run(folder, 'start', 'studio', '--rules', 'linked')).code).toBe(0);
    expect(lstatSync(join(folder, 'studio', 'rules')).isSymbolicLink()).toBe(false);
    expect(lstatSync(join(folder, 'studio', 'rules', 'texts.yaml')).isFile()).toBe(true);
  });

  test('writes papers that its own words are older than, with the shipped words, and says so', async () => {
    expect((await run(folder, 'start', 'studio')).code).toBe(0);
    const path = join(folder, 'studio', 'rules', 'texts.yaml');
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.replace(/^work:[\s\S]*?^report:/m, 'report:'));
    const [name = ''] = readdirSync(join(folder, 'studio', 'cases'));
    const sheet = (kind: string) =>
      run(
        join(folder, 'studio'),
        'sheet',
        name.replace('.yaml', ''),
        '--kind',
        kind,
        '--format',
        'text',
        '--out',
        '-',
        '--quick',
      );
    const order = await sheet('work');
    expect(order.code).toBe(0);
    expect(order.out).toContain('Work order: ');
    expect(order.err.replace(/\s+/g, ' ')).toContain('rules/texts.yaml has no words for work.title,');
    writeFileSync(path, text);
    expect((await sheet('work')).err).toBe('');
  });

  test('start, decide, list, check, explain', async () => {
    const started = await run(folder, 'start', 'studio');
    expect({ code: started.code, err: started.err }).toEqual({ code: 0, err: '' });
    expect(started.out).toContain('its check holds');
    const studio = join(folder, 'studio');
    expect(readdirSync(studio).sort()).toEqual(['cases', 'rules', 'studio.yaml']);
    const decided = await run(studio, 'decide', 'pear-tree-ninepatch', '--quick', '--json');
    expect(decided.code).toBe(0);
    expect(JSON.parse(decided.out)).toMatchObject({ standing: 'go_ahead', treatment: 'reassemble' });

    expect(await run(folder, 'start', 'studio')).toMatchObject({ code: 2, out: '' });
    expect((await run(folder, 'start', 'studio')).err).toContain('[already-there]');

    expect((await run(studio, 'cases', '--check')).code).toBe(0);
    writeFileSync(join(studio, 'cases', 'torn.yaml'), 'mendwise: 1\ncase: torn\nquilt: { sise: 3 }\n');
    const sample = join(studio, 'cases', 'pear-tree-ninepatch.yaml');
    writeFileSync(sample, readFileSync(sample, 'utf8').replace('treatment: reassemble', 'treatment: tie'));
    const listed = await run(studio, 'cases', '--json');
    expect(listed.code).toBe(0);
    expect(JSON.parse(listed.out)).toMatchObject([
      { case: 'pear-tree-ninepatch', standing: 'go_ahead', intended_use: 'guest_bed', updated: '2026-03-04' },
      { case: 'torn', problem: { code: expect.any(String) } },
    ]);
    const checked = await run(studio, 'cases', '--check');
    expect(checked.code).toBe(1);
    expect(checked.out).toContain('treatment is reassemble, not tie');

    const none = await run(studio, 'cases', '--standing', 'decline', '--json');
    // A case that does not read may be any of them, so it stays in every list.
    expect(JSON.parse(none.out)).toMatchObject([{ case: 'torn' }]);
    expect((await run(studio, 'cases', '--use', 'guest bed', '--undecided')).out).toContain(
      'pear-tree-ninepatch',
    );
    expect((await run(studio, 'cases', '--treatment', 'ties')).err).toContain('did you mean "tie"');

    expect((await run(studio, 'explain', 'bad-name')).out).toContain('letters, digits and dashes');
    expect((await run(studio, 'explain', 'damp')).out).toContain('back of a gloved hand');
    expect(await run(studio, 'explain', 'dampp')).toMatchObject({ code: 2, out: '' });
    expect((await run(studio, 'rules', 'show', 'mould-dries-firts')).err).toContain(
      'did you mean "mould-dries-first"',
    );
  });
});
