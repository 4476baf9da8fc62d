import { spawn } from 'node:child_process';
import { chmod, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { DISK, type Disk } from '../../src/store/disk.ts';
import { loadText } from '../../src/store/load-text.ts';
import { saveText } from '../../src/store/save-text.ts';

let folder = '';
const at = (name: string): string => join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'casebook-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const problemOf = async (work: Promise<unknown>): Promise<Problem> => {
  try {
    await work;
  } catch (error) {
    if (error instanceof ProblemError && error.problems[0]) return error.problems[0];
    throw error;
  }
  throw new Error('nothing was refused');
};

const fault = (code: string): Error => Object.assign(new Error(code), { code });

describe('loading', () => {
  it('gives the text as it stands', async () => {
    const text = '\uFEFFa: é\r\n';
    await writeFile(at('a.yaml'), text);
    expect(await loadText(at('a.yaml'))).toBe(text);
  });

  it('names the nearest file where there is none', async () => {
    await writeFile(at('lantern.yaml'), 'a: 1\n');
    const problem = await problemOf(loadText(at('lantren.yaml')));
    expect(problem).toMatchObject({ code: 'no-such-file', didYouMean: 'lantern.yaml' });
  });

  it.each<[string, () => Promise<unknown>, Partial<Problem>]>([
    ['a folder', () => mkdir(at('x.yaml')), { code: 'cannot-read', what: 'x.yaml is a folder, not a file' }],
    [
      'UTF-16',
      () => writeFile(at('x.yaml'), Buffer.from('\uFEFFa: 1\n', 'utf16le')),
      { code: 'not-text', what: 'x.yaml was saved as UTF-16' },
    ],
    [
      'a picture',
      () => writeFile(at('x.yaml'), Buffer.from([0x89, 0x50, 0, 0, 1])),
      { code: 'not-text', what: 'x.yaml is not a text file: it holds empty bytes' },
    ],
    [
      'Latin-1',
      () => writeFile(at('x.yaml'), Buffer.from('a: 1\nb: caf\xe9\n', 'latin1')),
      { code: 'not-text', what: 'x.yaml is not UTF-8 text: line 2 has bytes that mean nothing' },
    ],
    [
      'nine megabytes',
      () => writeFile(at('x.yaml'), 'x'.repeat(9_000_000)),
      { code: 'too-large', what: 'x.yaml holds 9 million bytes' },
    ],
    [
      'a link in a circle',
      () => symlink('x.yaml', at('x.yaml')),
      { code: 'cannot-read', what: 'x.yaml cannot be read: the path leads round in a circle' },
    ],
    [
      'a device',
      () => symlink('/dev/zero', at('x.yaml')),
      { code: 'cannot-read', what: 'x.yaml is not an ordinary file' },
    ],
  ])('refuses %s', async (_, make, expected) => {
    await make();
    const problem = await problemOf(loadText(at('x.yaml')));
    expect({ ...problem, what: problem.what.replace(`${folder}/`, '') }).toMatchObject(expected);
  });

  it('says where the bytes stop being text', async () => {
    await writeFile(at('x.yaml'), Buffer.from('a: 1\nb: caf\xe9\n', 'latin1'));
    expect((await problemOf(loadText(at('x.yaml')))).place).toMatchObject({ line: 2, column: 7 });
  });

  it('says so where permission is denied', async () => {
    await writeFile(at('x.yaml'), 'a: 1\n');
    // Root may read anything, so the refusal is put in by hand.
    const disk: Disk = { ...DISK, open: (() => Promise.reject(fault('EACCES'))) as Disk['open'] };
    const problem = await problemOf(loadText(at('x.yaml'), disk));
    expect(problem.what).toMatch(/cannot be read: permission is denied$/);
  });
});

describe('saving', () => {
  it('writes a new file and leaves nothing beside it', async () => {
    await saveText(at('a.yaml'), 'a: 1\n');
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('a: 1\n');
    expect(await readdir(folder)).toEqual(['a.yaml']);
  });

  it('does not write over a file it was not told of', async () => {
    await writeFile(at('a.yaml'), 'old');
    expect((await problemOf(saveText(at('a.yaml'), 'new'))).code).toBe('already-there');
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('old');
  });

  it('keeps the old version under its stamp, and its rights', async () => {
    await writeFile(at('a.yaml'), 'one');
    await chmod(at('a.yaml'), 0o640);
    await saveText(at('a.yaml'), 'two', { expected: 'one', stamp: '2026-03-05T10:15:00' });
    await saveText(at('a.yaml'), 'three', { expected: 'two', stamp: '2026-03-05T10:15:00' });
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('three');
    expect((await stat(at('a.yaml'))).mode & 0o777).toBe(0o640);
    expect(await readdir(at('.history'))).toEqual([
      'a.2026-03-05T10-15-00-2.yaml',
      'a.2026-03-05T10-15-00.yaml',
    ]);
    expect(await readFile(at('.history/a.2026-03-05T10-15-00.yaml'), 'utf8')).toBe('one');
    expect(await readFile(at('.history/a.2026-03-05T10-15-00-2.yaml'), 'utf8')).toBe('two');
    expect((await readdir(folder)).sort()).toEqual(['.history', 'a.yaml']);
  });

  it('refuses where the file changed or went underneath', async () => {
    await writeFile(at('a.yaml'), 'theirs');
    expect((await problemOf(saveText(at('a.yaml'), 'mine', { expected: 'old' }))).code).toBe(
      'changed-underneath',
    );
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('theirs');
    expect((await problemOf(saveText(at('b.yaml'), 'mine', { expected: 'old' }))).code).toBe(
      'changed-underneath',
    );
    expect(await readdir(folder)).toEqual(['a.yaml']);
  });

  it('refuses where an editor saves at the last moment', async () => {
    await writeFile(at('a.yaml'), 'old');
    const disk: Disk = {
      ...DISK,
      open: (async (...given: Parameters<Disk['open']>) => {
        await writeFile(at('a.yaml'), 'theirs');
        return DISK.open(...given);
      }) as Disk['open'],
    };
    expect((await problemOf(saveText(at('a.yaml'), 'mine', { expected: 'old', disk }))).code).toBe(
      'changed-underneath',
    );
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('theirs');
    expect(await readdir(folder)).toEqual(['a.yaml']);
  });

  it('follows a link instead of replacing it', async () => {
    await writeFile(at('real.yaml'), 'old');
    await symlink(at('real.yaml'), at('a.yaml'));
    await saveText(at('a.yaml'), 'new', { expected: 'old' });
    expect(await readFile(at('real.yaml'), 'utf8')).toBe('new');
  });

  it('keeps no version where nothing changed', async () => {
    await writeFile(at('a.yaml'), 'same');
    await saveText(at('a.yaml'), 'same', { expected: 'same' });
    expect(await readdir(folder)).toEqual(['a.yaml']);
  });

  it('sweeps what killed processes left behind, and nothing of the living', async () => {
    const host = hostname().replace(/[^A-Za-z0-9-]/g, '-');
    // Process ids end at 4194304 on Linux (proc(5), pid_max), so this one never ran.
    const dead = `.a.yaml.1.${host}.4194305.tmp`;
    const living = [
      `.a.yaml.1.${host}.${process.ppid}.tmp`,
      '.a.yaml.1.elsewhere.77.tmp',
      '.b.yaml.1.x.1.tmp',
    ];
    for (const name of [dead, ...living]) await writeFile(at(name), 'half');
    await writeFile(at('.a.yaml.lock'), `${host}.4194305`);
    await writeFile(at('a.yaml'), 'old');
    await saveText(at('a.yaml'), 'new', { expected: 'old' });
    expect((await readdir(folder)).sort()).toEqual([...living, '.history', 'a.yaml'].sort());
  });
});

describe('when the disk fails', () => {
  const failing: [name: string, disk: Partial<Record<keyof Disk, unknown>>, reason: RegExp][] = [
    ['rename', { rename: () => Promise.reject(fault('EIO')) }, /the disk reports a fault/],
    ['space for the version kept', { mkdir: () => Promise.reject(fault('ENOSPC')) }, /the disk is full/],
    ['permission', { writeFile: () => Promise.reject(fault('EACCES')) }, /permission is denied/],
    ['a read-only disk', { writeFile: () => Promise.reject(fault('EROFS')) }, /read-only/],
    [
      'a disk that takes a part and says nothing',
      {
        writeFile: (path: string, text: string, options: object) =>
          DISK.writeFile(path, path.endsWith('.tmp') ? text.slice(0, 3) : text, options),
      },
      /took only a part/,
    ],
    [
      'flushing',
      {
        open: async (...given: Parameters<Disk['open']>) => {
          const file = await DISK.open(...given);
          file.sync = () => Promise.reject(fault('EIO'));
          return file;
        },
      },
      /the disk reports a fault/,
    ],
  ];

  it.each(failing)('leaves the old file whole: %s', async (_, broken, reason) => {
    await writeFile(at('a.yaml'), 'the old text');
    const disk = { ...DISK, ...broken } as Disk;
    const problem = await problemOf(
      saveText(at('a.yaml'), 'the new text', { expected: 'the old text', disk }),
    );
    expect(problem.code).toBe('cannot-write');
    expect(problem.what).toMatch(reason);
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('the old text');
    expect((await readdir(folder)).filter((name) => name !== '.history')).toEqual(['a.yaml']);
  });

  it('locks nobody out after a full disk, nor after a writer killed before it signed', async () => {
    await writeFile(at('a.yaml'), 'old');
    const full = (async (path: string, _text: string, options: object) => {
      await DISK.writeFile(path, '', options);
      throw fault('ENOSPC');
    }) as Disk['writeFile'];
    const problem = await problemOf(
      saveText(at('a.yaml'), 'new', { expected: 'old', disk: { ...DISK, writeFile: full } }),
    );
    expect(problem.what).toMatch(/cannot be written: the disk is full$/);
    expect(await readdir(folder)).toEqual(['a.yaml']);
    await writeFile(at('.a.yaml.lock'), '');
    await saveText(at('a.yaml'), 'new', { expected: 'old' });
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('new');
  });

  it('says so, and which lock it is, where someone else keeps writing', async () => {
    await writeFile(at('a.yaml'), 'old');
    await writeFile(at('.a.yaml.lock'), 'elsewhere.77');
    const problem = await problemOf(saveText(at('a.yaml'), 'new', { expected: 'old' }));
    expect(problem.what).toMatch(/a\.yaml is being written by someone else$/);
    expect(problem.cure).toContain('.a.yaml.lock');
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('old');
  });

  it('copies the old version where the disk knows no second names', async () => {
    await writeFile(at('a.yaml'), 'old');
    const disk: Disk = { ...DISK, link: () => Promise.reject(fault('EPERM')) };
    await saveText(at('a.yaml'), 'new', { expected: 'old', stamp: 's', disk });
    expect(await readFile(at('.history/a.s.yaml'), 'utf8')).toBe('old');
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('new');
  });
});

const run = (command: string): Promise<string> =>
  new Promise((done, failed) => {
    const child = spawn('bash', ['-c', command], { stdio: ['ignore', 'pipe', 'pipe'] });
    let printed = '';
    child.stdout.on('data', (piece: Buffer) => {
      printed += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      printed += piece.toString();
    });
    child.on('error', failed);
    child.on('close', () => done(printed.trim()));
  });

describe('in processes of their own', () => {
  const root = new URL('../..', import.meta.url).pathname;
  let worker = '';
  beforeEach(async () => {
    worker = at('worker.mjs');
    await run(
      `cd ${root} && npx esbuild tests/casebook/save-worker.ts --bundle --platform=node --format=esm --log-level=error --outfile=${worker} --banner:js='import { createRequire } from "node:module"; const require = createRequire(import.meta.url);'`,
    );
  });

  it('leaves the old file whole where the system allows no larger file', async () => {
    await writeFile(at('a.yaml'), 'the old text');
    // ulimit -f counts 1024-byte blocks in bash: 20 kB are allowed, 100 kB asked for.
    const printed = await run(`ulimit -f 20; trap '' XFSZ; node ${worker} ${at('a.yaml')} grow 100000`);
    expect(printed).toMatch(/cannot be written: the file would be larger than allowed here/);
    expect(await readFile(at('a.yaml'), 'utf8')).toBe('the old text');
    expect((await readdir(folder)).sort()).toEqual(['a.yaml', 'worker.mjs']);
    expect(await run(`node ${worker} ${at('a.yaml')} grow 100000`)).toBe('saved');
  });

  it('loses no line of two writers at once', async () => {
    await writeFile(at('a.yaml'), '');
    const lines = 25;
    const writers = ['ann', 'bob'].map((name) => run(`node ${worker} ${at('a.yaml')} add ${lines} ${name}`));
    const refused = await Promise.all(writers);
    for (const times of refused) expect(times).toMatch(/^\d+$/);
    const written = (await readFile(at('a.yaml'), 'utf8')).trim().split('\n').sort();
    const expected = ['ann', 'bob'].flatMap((name) =>
      Array.from({ length: lines }, (_, line) => `${name} ${line}`),
    );
    expect(written).toEqual(expected.sort());
    expect(await readdir(at('.history'))).toHaveLength(2 * lines);
    expect((await readdir(folder)).sort()).toEqual(['.history', 'a.yaml', 'worker.mjs']);
  });

  it('lets one of two writers in one process win and tells the other', async () => {
    await writeFile(at('a.yaml'), 'old');
    const both = await Promise.allSettled(
      ['one', 'two'].map((text) => saveText(at('a.yaml'), text, { expected: 'old' })),
    );
    const won = both.findIndex(({ status }) => status === 'fulfilled');
    const lost = both.find(({ status }) => status === 'rejected');
    expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect(await readFile(at('a.yaml'), 'utf8')).toBe(['one', 'two'][won]);
    expect((lost as PromiseRejectedResult).reason.problems[0].code).toBe('changed-underneath');
  });
});
