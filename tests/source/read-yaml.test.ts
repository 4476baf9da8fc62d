import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import type { Problem } from '../../src/problems/problem.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import type { Source } from '../../src/source/source.ts';

const problemsOf = (text: string): Problem[] => {
  const read = readYaml('f.yaml', text);
  return 'problems' in read ? read.problems : [];
};

const sourceOf = (text: string): Source => {
  const read = readYaml('f.yaml', text);
  if ('problems' in read) throw new Error(read.problems.map((problem) => problem.what).join('; '));
  return read.source;
};

const brief = (text: string): string[] =>
  problemsOf(text).map(({ code, place }) => `${code} ${place?.line}:${place?.column}`);

describe('what is refused, and where', () => {
  it.each<[name: string, text: string, expected: string[]]>([
    ['an empty file', '', ['empty-file 1:1']],
    ['only comments', '# nothing\n', ['empty-file 1:1']],
    ['an empty document', '---\n', ['empty-file 1:1']],
    ['a key twice', 'a: 1\nb: 2\na: 3\n', ['yaml-duplicate-key 3:1']],
    ['a key twice in braces', 'a: { b: 1, b: 2 }', ['yaml-duplicate-key 1:12']],
    ['a number and a text that read alike', '1: a\n"1": b\n', ['yaml-duplicate-key 2:1']],
    ['an anchor', 'a: &x 1\n', ['yaml-alias 1:4']],
    ['an anchor and an alias', 'a: &x 1\nb: *x\n', ['yaml-alias 1:4', 'yaml-alias 2:4']],
    ['an alias to nothing', 'b: *nowhere\n', ['yaml-alias 1:4']],
    ['a merged group', 'a:\n  <<: { b: 1 }\n', ['yaml-alias 2:3']],
    ['a second document', 'a: 1\n---\nb: 2\n', ['yaml-many-documents 2:1']],
    ['a tab at the start', 'a:\n\tb: 1\n', ['yaml-tab 2:1']],
    ['a tab after spaces', 'a:\n  b: 1\n  \tc: 2\n', ['yaml-tab 3:3']],
    ['a mark', 'a: !!thing b\n', ['yaml-tag 1:4']],
    ['a directive', '%FOO bar\n---\na: 1\n', ['yaml-syntax 1:1']],
    ['an unclosed quote', 'a: "b\n', ['yaml-syntax 2:1']],
    ['two colons', 'a: b: c\n', ['yaml-syntax 1:4']],
    ['no space after the colon', 'a:1\nb: 2\n', ['yaml-syntax 1:1']],
    ['a group as a name', '{ a: 1 }: b\n', ['yaml-syntax 1:1']],
    ['a group to be borrowed', 'a: &b\n  c: 1\n', ['yaml-alias 2:3']],
    ['a list as a name', '? [a]\n: b\n', ['yaml-syntax 1:3']],
    ['a name that programs trip over', 'a:\n  __proto__: { polluted: yes }\n', ['unknown-key 2:3']],
    ['a NUL', 'a: 1\nb: \0\n', ['not-text 2:4']],
    ['bytes that were not UTF-8', 'a: caf\uFFFD\n', ['not-text 1:7']],
    ['uneven indentation', ' a: 1\nb: 2\n', ['yaml-syntax 2:1']],
  ])('%s', (_, text, expected) => {
    const found = brief(text);
    expect(found).toEqual(expected);
  });

  it('reports every faulty line of one file at once', () => {
    expect(brief('a: @x\nb: 2\nb: 3\nc: %5\n')).toEqual([
      'yaml-syntax 1:4',
      'yaml-duplicate-key 3:1',
      'yaml-syntax 4:4',
    ]);
  });

  it('refuses what is far too large without reading it', () => {
    expect(problemsOf(`a: ${'x'.repeat(2_100_000)}`)[0]?.code).toBe('too-large');
  });

  it.each<[string, string]>([
    ['brackets', '['.repeat(20_000)],
    ['braces', '{a: '.repeat(20_000)],
    ['dashes', `${'- '.repeat(20_000)}x`],
    ['indentation', Array.from({ length: 1500 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
  ])('refuses deep %s instead of running out of memory', (_, text) => {
    expect(problemsOf(text).map((problem) => problem.code)).toEqual(['too-deep']);
  });

  it('does not take a wide map of missing units for nesting', () => {
    const row = `  ${Array.from({ length: 120 }, () => '-').join(' ')}`;
    expect(problemsOf(`units: |\n${row}\n${row}\n`)).toEqual([]);
  });
});

describe('what is read', () => {
  it('keeps yes, no, dates, measures and shares as written (YAML 1.2, section 10.3, core)', () => {
    const { value } = sourceOf('a: yes\nb: no\nc: 2026-03-02\nd: 4 1/2 in\ne: 5 %\nf: true\ng: 0.5\n');
    expect(value).toEqual({ a: 'yes', b: 'no', c: '2026-03-02', d: '4 1/2 in', e: '5 %', f: true, g: 0.5 });
  });

  it('accepts a byte-order mark and Windows line ends, and keeps them in the text', () => {
    const text = '\uFEFFa: 1\r\nb: two\r\n';
    const source = sourceOf(text);
    expect(source.value).toEqual({ a: 1, b: 'two' });
    expect(source.text).toBe(text);
    expect(source.place(['b'])).toEqual({ file: 'f.yaml', line: 2, column: 4, length: 3, text: 'b: two' });
  });

  it('lets no key reach anything but data', () => {
    const { value } = sourceOf('constructor: 1\ntoString: 2\nhasOwnProperty: 3\n');
    expect(Object.getPrototypeOf(value)).toBeNull();
    expect(Object.keys(value as object)).toEqual(['constructor', 'toString', 'hasOwnProperty']);
  });
});

describe('places', () => {
  const source = sourceOf('top:\n  list:\n    - { a: 1, bee: two }\n  empty:\n1: one\n');

  it.each<[string, (string | number)[], 'key' | 'value', string]>([
    ['a value', ['top', 'list', 0, 'bee'], 'value', '3:20+3'],
    ['its key', ['top', 'list', 0, 'bee'], 'key', '3:15+3'],
    ['a missing key: the key of its parent', ['top', 'nothing'], 'value', '1:1+3'],
    ['far below what exists: the nearest parent', ['top', 'list', 0, 'bee', 'x', 'y'], 'value', '3:15+3'],
    ['an empty value: its key', ['top', 'empty'], 'value', '4:3+5'],
    ['a missing entry of a list: the list', ['top', 'list', 7], 'value', '2:3+4'],
    ['a key that is a number', ['1'], 'value', '5:4+3'],
    ['a missing key at the top: the first mark', ['gone'], 'value', '1:1+1'],
  ])('%s', (_, path, which, expected) => {
    const { line, column, length } = source.place(path, which);
    expect(`${line}:${column}+${length}`).toBe(expected);
  });

  it('finds every value of any data where it stands', () => {
    const word = fc.stringMatching(/^[a-z]{1,6}$/);
    const data = fc.dictionary(word, fc.dictionary(word, fc.integer({ min: 0, max: 9999 }), { minKeys: 1 }), {
      minKeys: 1,
    });
    fc.assert(
      fc.property(data, (value) => {
        const plain = JSON.parse(JSON.stringify(value)) as Record<string, Record<string, number>>;
        const read = sourceOf(stringify(plain));
        for (const [outer, group] of Object.entries(plain)) {
          for (const [inner, number] of Object.entries(group)) {
            const { text, column, length } = read.place([outer, inner]);
            expect(text.slice(column - 1, column - 1 + length)).toBe(String(number));
          }
        }
      }),
    );
  });
});
