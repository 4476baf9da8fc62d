import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { type Ran, run } from '../scenarios/run.ts';
import { DEAD, firstCaseIn, freshStudio, HOST } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);
const path = () => at('cases', `${name()}.yaml`);
const text = () => readFileSync(path(), 'utf8');
const log = (of: string, note = 'n'): string[] => ['log', of, 'supports', '2h', '--note', note];
const visible = () => readdirSync(at('cases')).filter((each) => each !== '.history');

const start = (...args: string[]): Promise<Ran> =>
  new Promise((done, failed) => {
    const child = spawn(process.execPath, [inject('built'), ...args], {
      cwd: at(),
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const said = { out: '', err: '' };
    child.stdout.on('data', (piece: Buffer) => {
      said.out += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      said.err += piece.toString();
    });
    child.on('error', failed);
    child.on('close', (code) => done({ code, ...said }));
  });

describe('a disk that does not take what it is given', () => {
  it('is full: nothing is written, the case stands as it was, and the exit code is 4', async () => {
    const old = text();
    // ulimit -f counts blocks of 1024 bytes in bash; the case is larger than two of them.
    expect(old.length).toBeGreaterThan(2048);
    const words = [process.execPath, inject('built'), ...log(name())].map((word) => `'${word}'`).join(' ');
    const { status, stderr } = spawnSync('bash', ['-c', `ulimit -f 2; trap '' XFSZ; ${words}`], {
      cwd: at(),
      encoding: 'utf8',
    });
    expect(stderr).toMatch(
      /cannot be written: the file would be larger than allowed here\s+\[cannot-write\]/,
    );
    expect(status).toBe(4);
    expect(text()).toBe(old);
    expect(visible()).toEqual([`${name()}.yaml`]);
    expect((await run(at(), ...log(name()))).code).toBe(0);
  });

  it.runIf(process.getuid?.() === 0)('is read-only for whoever runs it', () => {
    // Root may write anywhere, so the command runs as nobody, from a copy nobody may read.
    const home = dirname(at());
    const program = join(home, 'program');
    cpSync(dirname(inject('built')), join(program, 'dist'), { recursive: true });
    cpSync(at('rules'), join(program, 'rules'), { recursive: true });
    spawnSync('chmod', ['-R', 'a+rX', home]);
    chmodSync(at('cases'), 0o555);
    const old = text();
    const { status, stderr } = spawnSync(
      process.execPath,
      [join(program, 'dist', 'main.js'), ...log(name())],
      {
        cwd: at(),
        encoding: 'utf8',
        uid: 65534,
        gid: 65534,
        env: { PATH: process.env.PATH, HOME: '/nonexistent' },
      },
    );
    rmSync(program, { recursive: true });
    expect(stderr).toMatch(/cannot be written: permission is denied\s+\[cannot-write\]/);
    expect(status).toBe(4);
    expect(text()).toBe(old);
  });
});

describe('what stands where a file belongs', () => {
  it.each([
    ['a folder', () => mkdirSync(at('cases', 'odd.yaml')), /is a folder, not a file/],
    ['a link in a circle', () => symlinkSync('odd.yaml', at('cases', 'odd.yaml')), /round in a circle/],
    [
      'a link to nothing',
      () => symlinkSync('nowhere.yaml', at('cases', 'odd.yaml')),
      /there is no (file|case)/,
    ],
    ['a device', () => symlinkSync('/dev/zero', at('cases', 'odd.yaml')), /not an ordinary file/],
  ])('%s is refused in words, by reading and by writing', async (_, plant, said) => {
    plant();
    for (const typed of [['decide', 'odd'], log('odd')]) {
      const { code, err } = await run(at(), ...typed);
      expect(err.replace(/\s+/g, ' ')).toMatch(said);
      expect([2, 4]).toContain(code);
    }
    expect((await run(at(), 'cases')).code).toBe(0);
  });

  it('rules that are a folder, or a link in a circle, are named', async () => {
    rmSync(at('rules', 'stages', 'stop.yaml'));
    mkdirSync(at('rules', 'stages', 'stop.yaml'));
    expect(await run(at(), 'decide', name())).toMatchObject({
      code: 4,
      err: expect.stringContaining('stages/stop.yaml is a folder'),
    });
  });
});

describe('several at once', () => {
  it('two and more write one case: each line that was confirmed is in it, and nobody is told what is not so', async () => {
    const of = name();
    const ran = await Promise.all(
      Array.from({ length: 8 }, (_, index) => start(...log(of, `helper ${index}`))),
    );
    const now = text();
    const confirmed = ran.flatMap(({ code }, index) => (code === 0 ? [index] : []));
    expect(confirmed.length).toBeGreaterThan(0);
    for (const [index, { code, err }] of ran.entries()) {
      expect(now.includes(`helper ${index}`), err).toBe(code === 0);
      if (code !== 0) expect(err).toMatch(/\[changed-underneath\]|being written by someone else/);
    }
    expect(readdirSync(at('cases', '.history'))).toHaveLength(confirmed.length);
    expect(visible()).toEqual([`${of}.yaml`]);
  });

  it('several begin a case of one name: nobody overwrites what they have not seen', async () => {
    const size = ['--set', 'quilt.size.height=80 in', '--set'];
    const typed = (width: number) => ['enquiry', 'star-quilt', ...size, `quilt.size.width=${width} in`];
    const ran = await Promise.all([60, 61, 62, 63].map((width) => start(...typed(width))));
    const won = ran.flatMap(({ code }, index) => (code === 0 ? [60 + index] : []));
    expect(won.length).toBeGreaterThan(0);
    const widthIn = (...parts: string[]) =>
      Number(/width: (\d+) in/.exec(readFileSync(at('cases', ...parts), 'utf8'))?.[1]);
    // Whoever came when the case was there already went on with it, and what stood there was kept.
    const kept = won.length === 1 ? [] : readdirSync(at('cases', '.history'));
    expect([widthIn('star-quilt.yaml'), ...kept.map((each) => widthIn('.history', each))].sort()).toEqual(
      won,
    );
    for (const { code, err } of ran.filter((each) => each.code !== 0)) {
      expect(err).toMatch(/\[already-there\]|\[changed-underneath\]|being written by someone else/);
      expect([2, 4]).toContain(code);
    }
  });
});

describe('a lock that was left behind', () => {
  const lock = () => at('cases', `.${name()}.yaml.lock`);
  const aged = (holder: string, seconds: number) => {
    writeFileSync(lock(), holder);
    utimesSync(lock(), Date.now() / 1000 - seconds, Date.now() / 1000 - seconds);
  };

  it.each([
    ['by a process that is dead', () => aged(DEAD, 0)],
    ['by a dead process whose number another has by now', () => aged(`${HOST}.${process.pid}`, 3600)],
    ['before the clock was set back', () => aged(`${HOST}.${process.pid}`, -86_400)],
    ['unsigned, by one killed at once', () => aged('', 0)],
  ])('locks nobody out: %s', async (_, leave) => {
    leave();
    expect(await run(at(), ...log(name()))).toMatchObject({ code: 0 });
    expect(visible()).toEqual([`${name()}.yaml`]);
  });

  it('is kept while its writer lives, or is on another machine', async () => {
    for (const holder of [`${HOST}.${process.pid}`, 'elsewhere.77']) {
      aged(holder, 0);
      const { code, err } = await run(at(), ...log(name()));
      expect(code).toBe(4);
      expect(err.replace(/\s+/g, ' ')).toMatch(/is being written by someone else .* remove .*\.lock/);
    }
  });
});

describe('a case of a newer format', () => {
  it('is refused by every command that would write it, and nothing is written', async () => {
    const of = name();
    writeFileSync(path(), text().replace('mendwise: 1', 'mendwise: 2'));
    const before = text();
    const doc = [
      log(of),
      ['decide', of, '--record'],
      ['survey', of, '--set', 'seen=in hand'],
      ['followup', of, '--seen', 'told'],
    ];
    for (const typed of doc) {
      const { code, err } = await run(at(), ...typed);
      expect(err).toContain('[newer-format]');
      expect(code).toBe(2);
    }
    expect(text()).toBe(before);
    expect(visible()).toEqual([`${of}.yaml`]);
  });
});

describe('names that are paths', () => {
  // Reserved device names: learn.microsoft.com, "Naming Files, Paths, and Namespaces".
  const hostile = [
    '../evil',
    '/tmp/evil',
    '..',
    '.',
    '',
    '.hidden',
    'a/b',
    'a\\b',
    'CON',
    'nul',
    'LPT1',
    'NUL.txt',
    'x'.repeat(300),
    'ﷺ'.repeat(80),
    'cafe\u0301-quilt',
    'a\u0000b',
    'a\nb',
    '$HOME',
    'a;b',
    '__proto__',
    '\u202Eabc',
  ];
  it.each(hostile.map((each) => [JSON.stringify(each).slice(0, 24), each]))(
    '%s begins no case',
    async (_, given) => {
      const size = ['--set', 'quilt.size.width=72 in', '--set', 'quilt.size.height=80 in'];
      const { code, err } = await run(at(), 'enquiry', ...size, '--', given);
      expect(code).not.toBe(0);
      expect(err).toMatch(/\[(bad-name|needs-terminal)\]/);
      expect(visible()).toEqual([`${name()}.yaml`]);
    },
  );
});
