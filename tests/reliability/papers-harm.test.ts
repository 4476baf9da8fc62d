import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/command-line.ts';
import { runHere } from '../scenarios/run.ts';
import { digestsOf } from './digests.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const CASE = 'kiln-yard-squares';

let folder = '';
const at = (...parts: string[]) => join(folder, ...parts);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-papers-'));
  cpSync(join(ROOT, 'rules'), at('rules'), { recursive: true });
  mkdirSync(at('cases'));
  // One quilt surveyed twice is enough for every page; more would only take longer.
  for (const name of [`${CASE}.yaml`, `${CASE}.helper-a.yaml`])
    cpSync(join(ROOT, 'cases', 'demo', name), at('cases', name));
  writeFileSync(at('studio.yaml'), 'studio: Mending room\n');
  writeFileSync(at('cases', 'unfinished.draft.yaml'), 'quilt: {}\n');
  writeFileSync(at('older.html'), OLDER);
  mkdirSync(at('folder.html'));
  symlinkSync(at('cases', `${CASE}.yaml`), at('leads-to-a-case.html'));
  symlinkSync(at('rules', 'figures.yaml'), at('leads-to-figures.txt'));
  symlinkSync(at('cases'), at('leads-to-a-folder.md'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
/** With bytes that are no UTF-8: whatever somebody saved under that name. */
const OLDER = Buffer.concat([Buffer.from('signed by the client '), Buffer.from([0xe9, 0xff])]);

/** How each command is asked for a paper, by its name and the option that takes the file. */
const ASKED: Readonly<Record<string, readonly string[]>> = {
  'sheet --out': ['sheet', at0(`cases/${CASE}.yaml`), '--quick', '--out'],
  'rules book --output': ['rules', 'book', '--output'],
  'helpers --html': ['helpers', '--html'],
  'learned --html': ['learned', '--html'],
};
/** A marker for a path in the studio, which is made only when the tests run. */
function at0(path: string): string {
  return `@/${path}`;
}
const typedFor = (asked: readonly string[], file: string): string[] => [
  ...asked.map((word) => (word.startsWith('@/') ? at(word.slice(2)) : word)),
  file,
  '--studio',
  folder,
];

type Writer = (file: string, ...more: string[]) => Promise<{ code: number | null; err: string }>;
const writerOf =
  (asked: readonly string[]): Writer =>
  (file, ...more) =>
    runHere(...typedFor(asked, file), ...more);

/** What must never be written over, with or without leave to replace a paper. */
const NEVER = [
  `cases/${CASE}.yaml`,
  `cases/${CASE}.helper-a.yaml`,
  'cases/unfinished.draft.yaml',
  'cases/new-name.yaml',
  'rules/stages/stop.yaml',
  'rules/figures.yaml',
  'rules/texts.yaml',
  'studio.yaml',
  'leads-to-a-case.html',
  'leads-to-figures.txt',
  'leads-to-a-folder.md',
  'folder.html',
  'cases',
];

/** What a writer did wrong at one place: bytes that changed, a refusal without words. Nothing where it did right. */
async function harmOf(write: Writer, file: string, ...more: string[]): Promise<string[]> {
  const before = digestsOf(folder);
  const { code, err } = await write(at(file), ...more);
  const after = digestsOf(folder);
  const paths = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [
    ...[...paths].filter((path) => before[path] !== after[path]).map((path) => `${path} changed`),
    ...(code === 0 || code === null ? [`${file}: ended with ${code}`] : []),
    ...(/^(?=[\s\S]*error: \S)(?=[\s\S]*^ {2}Why: \S)(?=[\s\S]*^ {2}Do: \S)/m.test(err)
      ? []
      : [`${file}: does not say what, why and how to mend it: ${err}`]),
  ];
}

describe('commands that write a paper', () => {
  it('are all of them tried here, as their own options say', () => {
    const READ = ['--from', '--photo'];
    const doc = COMMANDS.flatMap(({ name, options }) =>
      options
        .filter(({ flags }) => flags.endsWith('<file>') && !READ.some((read) => flags.startsWith(read)))
        .map(({ flags }) => `${name} ${flags.split(' ')[0]}`),
    );
    expect(doc.sort()).toEqual(Object.keys(ASKED).sort());
    for (const { name, options } of COMMANDS)
      if (doc.some((each) => each.startsWith(`${name} --`)))
        expect(
          options.map(({ flags }) => flags),
          name,
        ).toContain('--replace');
  });

  describe.each(Object.entries(ASKED))('%s', (_, asked) => {
    const write = writerOf(asked);
    it.each(NEVER)('never writes to %s', async (file) => {
      expect(await harmOf(write, file)).toEqual([]);
      expect(await harmOf(write, file, '--replace')).toEqual([]);
    });

    it('writes over an older paper only where that is asked for, and keeps the older one', async () => {
      expect(await harmOf(write, 'older.html')).toEqual([]);
      const { 'older.html': older, ...others } = digestsOf(folder);
      expect(await write(at('older.html'), '--replace')).toMatchObject({ code: 0 });
      const { 'older.html': now, ...rest } = digestsOf(folder);
      expect(now).not.toBe(older);
      expect(readFileSync(at('older.html'), 'utf8')).toMatch(/^<!doctype html>/i);
      const [kept = '', ...more] = readdirSync(at('.history'));
      expect(more).toEqual([]);
      expect(readFileSync(at('.history', kept))).toEqual(OLDER);
      expect(rest).toEqual({ ...others, '.history': 'folder', [`.history/${kept}`]: older });
      rmSync(at('.history'), { recursive: true });
      writeFileSync(at('older.html'), OLDER);
    });
  });

  it('take an older paper with large photographs for a paper too', async () => {
    // A page holds its pictures: two of the largest allowed make more than any text may have.
    writeFileSync(at('album.html'), Buffer.alloc(30_000_000, 'a'));
    const { code, err } = await writerOf(ASKED['sheet --out'] ?? [])(at('album.html'), '--replace');
    expect([code, err]).toEqual([0, expect.stringContaining('Written')]);
    rmSync(at('.history'), { recursive: true });
  });
});

describe('what is looked for here', () => {
  const wrong: Readonly<Record<string, Writer>> = {
    'writes over what is there': async (file) => {
      writeFileSync(file, 'a page');
      return { code: 0, err: '' };
    },
    'writes beside it, and fails without a word on what to do': async (file) => {
      writeFileSync(`${file}.tmp`, '');
      return { code: 4, err: 'error: EEXIST' };
    },
  };
  it.each(Object.entries(wrong))('is found in a writer that %s', async (_, write) => {
    writeFileSync(at('planted.yaml'), 'a case\n');
    expect((await harmOf(write, 'planted.yaml')).length).toBeGreaterThan(1);
    for (const name of readdirSync(folder).filter((each) => each.startsWith('planted'))) rmSync(at(name));
  });
});
