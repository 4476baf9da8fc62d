import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { loadText } from '../../src/store/load-text.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const plain = readFileSync(join(ROOT, 'cases/trunk-find.yaml'), 'utf8');
let folder = '';
let studio: Studio;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-texts-'));
  studio = await openStudio({ rules: join(ROOT, 'rules') });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What comes of a file of these bytes, within bounds of memory and of the processor's time: others may keep it busy. */
const read = async (bytes: string | Buffer) => {
  const path = join(folder, 'trunk-find.yaml');
  writeFileSync(path, bytes);
  const [memory, before] = [process.memoryUsage().rss, process.cpuUsage()];
  const outcome = await loadText(path).then(
    (text) => readCase(path, text, findingReader(studio.knowledge.vocabulary)),
    (error: unknown) => {
      if (!(error instanceof ProblemError)) throw error;
      return { problems: [...error.problems], case: undefined };
    },
  );
  // The issue's bounds: 2 s and 500 MB.
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1000).toBeLessThan(2000);
  expect(process.memoryUsage().rss - memory).toBeLessThan(500e6);
  return outcome;
};
const firstOf = async (bytes: string | Buffer): Promise<Problem | undefined> =>
  (await read(bytes)).problems[0];

describe('encodings', () => {
  it.each([
    ['a byte-order mark', `\uFEFF${plain}`],
    ['Windows line ends', plain.replaceAll('\n', '\r\n')],
    ['both', `\uFEFF${plain.replaceAll('\n', '\r\n')}`],
    ['no line break at the end', plain.trimEnd()],
  ])('%s changes nothing', async (_, text) => {
    expect((await read(text)).case).toEqual((await read(plain)).case);
    expect((await read(text)).case).toBeDefined();
  });

  it.each([
    ['UTF-16, little end first', Buffer.from(`\uFEFF${plain}`, 'utf16le'), 'not-text', /UTF-16/],
    ['UTF-16, big end first', Buffer.from(`\uFEFF${plain}`, 'utf16le').swap16(), 'not-text', /UTF-16/],
    ['UTF-16 without its mark', Buffer.from(plain, 'utf16le'), 'not-text', /empty bytes/],
    [
      'UTF-32',
      Buffer.concat([Buffer.from([0xff, 0xfe, 0, 0]), Buffer.alloc(100)]),
      'not-text',
      /UTF-16|empty bytes/,
    ],
    [
      'Latin-1',
      Buffer.from(plain.replace('case:', '# caf\xe9\ncase:'), 'latin1'),
      'not-text',
      /line \d+ has bytes/,
    ],
    [
      'a surrogate half',
      Buffer.concat([Buffer.from(plain), Buffer.from([0xed, 0xa0, 0x80])]),
      'not-text',
      /bytes that mean nothing/,
    ],
    [
      'an overlong slash',
      Buffer.concat([Buffer.from(plain), Buffer.from([0xc0, 0xaf])]),
      'not-text',
      /bytes that mean nothing/,
    ],
    ['a NUL', `${plain}\u0000`, 'not-text', /empty bytes/],
    ['a bell', `${plain}\u0007`, 'not-text', /U\+0007/],
    ['an escape in quotes', plain.replace(/title: .*/, 'title: "\\e[2J"'), 'not-text', /U\+001B/],
    ['a turn of direction', plain.replace(/title: .*/, 'title: "\\u202Ecba"'), 'not-text', /U\+202E/],
    [
      'a picture',
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]),
      'not-text',
      /not a text file/,
    ],
    ['nothing', '', 'empty-file', /empty/],
    ['blanks', ' \n\t\n', 'empty-file', /empty/],
    ['comments', '# a\n# b\n', 'empty-file', /comments/],
  ] as const)('%s is told', async (_, bytes, code, what) => {
    const problem = await firstOf(bytes);
    expect(problem?.what).toMatch(what);
    expect(problem?.code).toBe(code);
  });
});

const bomb = (() => {
  // Nine levels of nine aliases each: 9^9 values, as in the well-known "billion laughs".
  const lines = ['a0: &a0 [x, x, x, x, x, x, x, x, x]'];
  for (let level = 1; level < 9; level += 1)
    lines.push(
      `a${level}: &a${level} [${Array(9)
        .fill(`*a${level - 1}`)
        .join(', ')}]`,
    );
  return `${lines.join('\n')}\n`;
})();

describe('files that are not what they seem', () => {
  it.each([
    ['nine megabytes', 'x'.repeat(9_000_000), 'too-large'],
    [
      'more keys than anybody writes',
      Array.from({ length: 150_000 }, (_, key) => `k${key}: 1`).join('\n'),
      'too-large',
    ],
    [
      'as many keys as are read',
      Array.from({ length: 12_000 }, (_, key) => `k${key}: 1`).join('\n'),
      undefined,
    ],
    ['one line of two million characters', `mendwise: 1\ntitle: ${'x'.repeat(1_900_000)}`, undefined],
    ['a bomb of aliases', bomb, 'yaml-alias'],
    ['an alias to itself', 'a: &a [*a]\n', 'yaml-alias'],
    ['an alias to nothing', 'a: *b\n', 'yaml-alias'],
    ['brackets without end', '['.repeat(100_000), 'too-deep'],
    ['groups without end', '{a: '.repeat(100_000), 'too-deep'],
    ['dashes without end', '- '.repeat(100_000), 'too-deep'],
    [
      'indents without end',
      Array.from({ length: 900 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'),
      'too-deep',
    ],
    ['quotes that do not close', `title: "${'a'.repeat(1_000_000)}`, 'yaml-syntax'],
    ['a key twice', `${plain}case: other\n`, 'yaml-duplicate-key'],
    ['two documents', `${plain}---\n${plain}`, 'yaml-many-documents'],
    ['a tag that makes something', plain.replace(/title: .*/, 'title: !!js/function "x"'), 'yaml-tag'],
    ['a group merged in', `${plain}<<: { a: 1 }\n`, undefined],
  ] as const)('%s: bounded in time and memory, and told', async (_, text, code) => {
    const { problems, case: made } = await read(text);
    expect(made).toBeUndefined();
    expect(problems.length).toBeGreaterThan(0);
    if (code !== undefined) expect(problems.map((problem) => problem.code)).toContain(code);
  });

  it.each(['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'])(
    '%s is only a name that is not known, wherever it stands',
    async (key) => {
      const places = [
        `${plain}${key}: { polluted: yes }\n`,
        plain.replace(/^client:.*$/m, `client: { ${key}: { polluted: yes } }`),
        plain.replace(/^survey:/m, `survey:\n  ${key}: x`),
        `${plain}"${key}": 1\n`,
      ];
      for (const text of places) {
        expect(text).not.toBe(plain);
        const { problems, case: made } = await read(text);
        expect(made).toBeUndefined();
        expect(problems.map(({ code }) => code)).toContain('unknown-key');
        expect(problems.some(({ what }) => what.includes(key))).toBe(true);
      }
      expect(Reflect.get({}, 'polluted')).toBeUndefined();
    },
  );
});

describe('hostile text', () => {
  /** Text that has hurt other programs: markup, formats, paths, shells, spreadsheets, scripts of all directions. */
  const HOSTILE = [
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    "'; DROP TABLE quilts; --",
    '{{7*7}} $\u007B7*7} #{7*7}',
    '{price.likely} {__proto__} {} {a',
    '%s%n%d %00',
    '../../etc/passwd',
    '$(touch /tmp/hacked) `id`',
    '=HYPERLINK("x")',
    'שלום مرحبا',
    'Zalgo\u0300\u0301\u0302\u0303\u0304\u0305',
    '👩‍👩‍👧‍👦🏳️‍🌈',
    '\u2028\u2029',
    'constructor',
    'null',
    'a'.repeat(10_000),
  ];
  const quote = (text: string): string => JSON.stringify(text);

  it.each(HOSTILE.map((text) => [quote(text).slice(0, 30), text]))(
    '%s in any text of a case is only text',
    async (_, text) => {
      const filled = plain
        .replace(/title: .*/, `title: ${quote(text)}`)
        .replace(/ref: [^,}\n]+/, `ref: ${quote(text)}`)
        .replace(/name: [^,}\n]+/, `name: ${quote(text)}`)
        .replace(/by: [^,}\n]+/, `by: ${quote(text)}`);
      expect(filled).not.toBe(plain);
      const { case: made, problems } = await read(filled);
      if (made === undefined) {
        // Refusing is an answer too, where it says what it refuses.
        for (const problem of problems) expect(problem.place?.line).toBeGreaterThan(0);
        return;
      }
      expect(made.quilt.title ?? text).toBe(text);
      const { answer } = await decide(made, contextOf(studio, '2026-11-27'));
      expect(['go_ahead', 'not_yet', 'refer', 'decline']).toContain(answer.standing);
    },
  );
});
