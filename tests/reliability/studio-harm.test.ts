import { spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { openDraft } from '../../src/interview/draft.ts';
import { ProblemError } from '../../src/problems/problem.ts';
import { flat, run, runBuilt, runHere } from '../scenarios/run.ts';
import { FULL } from '../tiers.ts';
import { digestsOf } from './digests.ts';
import { seeded } from './seeded.ts';
import { DEAD, firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);

let elsewhere = '';
beforeAll(() => {
  elsewhere = mkdtempSync(join(tmpdir(), 'mendwise-elsewhere-'));
});
afterAll(() => rmSync(elsewhere, { recursive: true, force: true }));

describe('the rules that came with the program', () => {
  const shipped = () => join(dirname(inject('built')), '..', 'rules');
  const NEW = [
    ...['rules', 'new', 'ask-about-pets', '--stage', 'stop', '--title', 'Ask', '--because', 'Claws pull.'],
    ...['--when', '{ all: [{ finding: damp, is: yes }] }', '--then', '{ ask: Does a pet sleep on it? }'],
  ];
  const CHANGING = [
    ['rules amend', ['rules', 'amend', 'rodent-waste-is-disinfected-first', '--set', 'title=Other']],
    ['rules retire', ['rules', 'retire', 'rodent-waste-is-disinfected-first']],
    ['rules new', NEW],
  ] as const;
  const because = (typed: readonly string[]) =>
    typed.includes('--because') ? [...typed] : [...typed, '--because', 'Tried.'];

  it.each(CHANGING)('are never rewritten by %s, whichever way they are reached', async (_, typed) => {
    const linked = mkdtempSync(join(elsewhere, 'linked-'));
    symlinkSync(shipped(), join(linked, 'rules'));
    const bare = mkdtempSync(join(elsewhere, 'bare-'));
    const before = digestsOf(shipped());
    for (const [folder, ...more] of [[bare], [bare, '--rules', shipped()], [linked]]) {
      const { code, err } = runBuilt(folder ?? '', ...because(typed), ...more);
      expect(code).toBe(2);
      expect(flat(err)).toMatch(/rules that came with the program, and those are never rewritten/);
      expect(flat(err)).toMatch(/Why: .* Do: Make a studio with "mendwise start FOLDER"/);
    }
    expect(digestsOf(shipped())).toEqual(before);
    expect(readdirSync(bare)).toEqual([]);
    // The same words change a studio's own rules: they are refused for nothing else.
    expect(await run(at(), ...because(typed))).toMatchObject({ code: 0 });
  });

  it('are never rewritten by learned --accept, where a studio’s outcomes propose other figures', async () => {
    const bare = mkdtempSync(join(elsewhere, 'learning-'));
    mkdirSync(join(bare, 'cases'));
    const demo = new URL('../../cases/demo/', import.meta.url).pathname;
    for (const file of readdirSync(demo)) cpSync(join(demo, file), join(bare, 'cases', file));
    const before = digestsOf(shipped());
    const { code, err } = await run(bare, 'learned', '--accept', 'all');
    expect([code, flat(err)]).toEqual([2, expect.stringContaining('never rewritten [shipped-rules]')]);
    expect(digestsOf(shipped())).toEqual(before);
  });

  it('would be seen to change', () => {
    const copy = join(elsewhere, 'copy');
    cpSync(shipped(), copy, { recursive: true });
    const before = digestsOf(copy);
    expect(before).toEqual(digestsOf(shipped()));
    writeFileSync(join(copy, 'units.yaml'), `${readFileSync(join(copy, 'units.yaml'), 'utf8')}\n`);
    expect(digestsOf(copy)).not.toEqual(before);
  });
});

describe('names with a meaning of their own', () => {
  const RESERVED = [
    'draft',
    'making',
    'history',
    'records',
    'lock',
    'tmp',
    'kept',
    'rules',
    'studio',
    'Draft',
  ];
  const size = ['--set', 'quilt.size.width=60 in', '--set', 'quilt.size.height=60 in'];

  it.each(RESERVED)('%s is taken neither for a helper nor for a case', async (word) => {
    const before = digestsOf(at());
    const typed = [
      ['survey', name(), '--as', word, '--set', 'seen=in hand'],
      ['enquiry', word, ...size],
    ];
    for (const each of typed) {
      const { code, err } = await runHere(...each, '--studio', at());
      expect(code, each[0]).toBe(2);
      expect(flat(err)).toMatch(/cannot be the name of .* \[bad-name\] Why: .* meaning of .* own .* Do: Use/);
    }
    expect(digestsOf(at())).toEqual(before);
  });

  it('are few: a name that only holds such a word is free', async () => {
    const typed = [
      ['survey', name(), '--as', 'draft-horse', '--set', 'seen=in hand'],
      ['enquiry', 'history-quilt', ...size],
    ];
    const files = [`${name()}.draft-horse.yaml`, 'history-quilt.yaml'];
    for (const each of typed) expect(await runHere(...each, '--studio', at())).toMatchObject({ code: 0 });
    expect(readdirSync(at('cases'))).toEqual(expect.arrayContaining(files));
  });
});

describe('two interviews on one quilt', () => {
  const said = (title: string) => ({ quilt: { title } });
  const drafts = () => readdirSync(at('cases')).filter((file) => file.includes('.draft.'));

  it('lose neither’s answers: who comes second finds theirs beside, and is told where', async () => {
    const [first, second] = [await openDraft(at('cases'), 'quilt'), await openDraft(at('cases'), 'quilt')];
    await first.save(said('told to the first'));
    const refused = await second.save(said('told to the second')).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(ProblemError);
    const [problem] = refused instanceof ProblemError ? refused.problems : [];
    const beside = drafts().find((file) => file.endsWith('.kept')) ?? '';
    expect(problem).toMatchObject({ code: 'changed-underneath', severity: 'error' });
    expect(problem?.what).toContain('another interview on the same quilt');
    expect(problem?.cure).toContain(beside);
    expect(readFileSync(at('cases', 'quilt.draft.yaml'), 'utf8')).toContain('told to the first');
    expect(readFileSync(at('cases', beside), 'utf8')).toContain('told to the second');
    // The first goes on as if nothing had been.
    await first.save(said('told to the first, later'));
    expect(drafts()).toEqual(['quilt.draft.yaml', beside]);
    // Nobody finds such a file by chance.
    const { code, out } = await run(at(), 'doctor', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toContainEqual(
      expect.objectContaining({ kind: 'kept-answers', severity: 'note', file: `cases/${beside}` }),
    );
  });

  it('do not hinder each other one after the other', async () => {
    await (await openDraft(at('cases'), 'quilt')).save(said('first'));
    const later = await openDraft(at('cases'), 'quilt');
    expect(later.said).toEqual(said('first'));
    await later.save(said('second'));
    expect(drafts()).toEqual(['quilt.draft.yaml']);
  });
});

describe('a start that was broken off', () => {
  const start = (...parts: string[]) => run(elsewhere, 'start', join('broken', ...parts));
  const whole = async (...parts: string[]) => {
    expect(await run(join(elsewhere, 'broken', ...parts), 'doctor')).toMatchObject({ code: 0 });
    expect(readdirSync(join(elsewhere, 'broken', ...parts)).sort()).toEqual([
      'cases',
      'rules',
      'studio.yaml',
    ]);
  };

  // Things are moved to their places in this order, each of them whole.
  it.each([0, 1, 2, 3])('is gone on with where %i of three things had come to their place', async (moved) => {
    const folder = join(elsewhere, 'broken', `after-${moved}`);
    mkdirSync(join(folder, '.making', 'rules'), { recursive: true });
    writeFileSync(join(folder, '.making', 'rules', 'findings.yaml'), 'half a fi');
    for (const each of ['rules', 'cases', 'studio.yaml'].slice(0, moved))
      cpSync(at(each), join(folder, each), { recursive: true });
    expect(await start(`after-${moved}`)).toMatchObject({ code: 0 });
    await whole(`after-${moved}`);
  });

  it('is gone on with after a kill at any moment', async () => {
    const random = seeded(5);
    let broken = 0;
    for (let kill = 0; kill < (FULL ? 40 : 3); kill += 1) {
      const folder = join(elsewhere, 'broken', `kill-${kill}`);
      const child = spawn(process.execPath, [inject('built'), 'start', folder], { stdio: 'ignore' });
      const ended = new Promise((done) => child.on('close', done));
      await expect.poll(() => existsSync(folder), { interval: 2, timeout: 30_000 }).toBe(true);
      await pause(random() * 60);
      child.kill('SIGKILL');
      await ended;
      if (!existsSync(join(folder, '.making')) && readdirSync(folder).length > 0) continue;
      broken += 1;
      expect(await start(`kill-${kill}`)).toMatchObject({ code: 0 });
      await whole(`kill-${kill}`);
    }
    // Some kills did fall into the making, or nothing was tried.
    expect(broken).toBeGreaterThan(0);
  });

  it('of rules schema is mended by running it again', async () => {
    const schema = (...parts: string[]) => at('rules', 'schema', ...parts);
    const before = digestsOf(schema());
    writeFileSync(schema('case.json'), '{ "half": ');
    rmSync(schema('rules.json'));
    writeFileSync(schema(`.rules.json.1.${DEAD}.tmp`), 'half');
    writeFileSync(schema('.rules.json.lock'), DEAD);
    expect(await run(at(), 'rules', 'schema')).toMatchObject({
      code: 0,
      out: expect.stringContaining('2 schemas'),
    });
    expect(digestsOf(schema())).toEqual(before);
    expect((await run(at(), 'rules', 'schema')).out).toContain('fit the rules already');
  });
});
