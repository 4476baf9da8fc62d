/** Words that have upset readers of files before. */
const WORDS = [
  '',
  ' ',
  '\t',
  '\n',
  '\r',
  ':',
  ': ',
  '- ',
  '#',
  '"',
  "'",
  '{',
  '}',
  '[',
  ']',
  ',',
  '|',
  '>',
  '&a',
  '*a',
  '!!x',
  '---',
  '...',
  '%',
  '@',
  '`',
  '?',
  '~',
  'null',
  'yes',
  'no',
  'true',
  '.nan',
  '.inf',
  '-0',
  '1e309',
  '-1',
  '0',
  '99999999999999999999',
  '0x1F',
  '1_000',
  '1/0 in',
  '-4 in',
  '1e9 in',
  '200 %',
  '%',
  'NaN',
  '2026-02-30',
  '0000-00-00',
  '9999-12-31',
  'unknown',
  '?',
  'x',
  '__proto__',
  'constructor',
  'all',
  'any',
  'not',
  'when',
  'then',
  'mendwise',
  '\uFEFF',
  '\u0000',
  '\u0007',
  '\u2028',
  '\u202E',
  '\uD800',
  '😀',
  '{life_years.low}',
  '{',
  'x'.repeat(5000),
  '['.repeat(100),
  '  '.repeat(200),
];

type Random = () => number;
const below = (random: Random, end: number): number => Math.floor(random() * end);
const cut = (text: string, from: number, to: number, by: string): string =>
  text.slice(0, from) + by + text.slice(to);

/** One way of spoiling a text; `random` decides where. */
type Mutation = (text: string, random: Random, other: string) => string;

const byLines =
  (change: (lines: string[], random: Random) => void): Mutation =>
  (text, random) => {
    const lines = text.split('\n');
    change(lines, random);
    return lines.join('\n');
  };
const word = (random: Random): string => WORDS[below(random, WORDS.length)] ?? '';

const MUTATIONS: readonly Mutation[] = [
  (text, random) => {
    const at = below(random, text.length);
    return cut(text, at, at + 1, String.fromCharCode(below(random, 0x250)));
  },
  (text, random) => {
    const at = below(random, text.length);
    return cut(text, at, at + below(random, 40), '');
  },
  (text, random) => cut(text, below(random, text.length), text.length, ''),
  (text, random) => {
    const at = below(random, text.length);
    return cut(text, at, at, word(random));
  },
  // A whole word or value for another: the shape stays, the sense goes.
  (text, random) => {
    const words = [...text.matchAll(/[\w.%-]+/g)];
    const found = words[below(random, words.length)];
    return found === undefined ? text : cut(text, found.index, found.index + found[0].length, word(random));
  },
  (text, random, other) => {
    const words = [...text.matchAll(/[\w.%-]+/g)];
    const found = words[below(random, words.length)];
    const others = other.match(/[\w.%-]+/g) ?? [];
    return found === undefined
      ? text
      : cut(text, found.index, found.index + found[0].length, others[below(random, others.length)] ?? '');
  },
  byLines((lines, random) => lines.splice(below(random, lines.length), 1)),
  byLines((lines, random) => {
    const at = below(random, lines.length);
    lines.splice(at, 0, lines[at] ?? '');
  }),
  byLines((lines, random) => {
    const [a, b] = [below(random, lines.length), below(random, lines.length)];
    [lines[a], lines[b]] = [lines[b] ?? '', lines[a] ?? ''];
  }),
  byLines((lines, random) => {
    const at = below(random, lines.length);
    lines[at] = ' '.repeat(below(random, 6)) + (lines[at] ?? '').trimStart();
  }),
  (text, random, other) => {
    const lines = other.split('\n');
    const at = below(random, lines.length);
    const from = text.indexOf('\n', below(random, text.length)) + 1;
    return cut(text, from, from, `${lines.slice(at, at + 1 + below(random, 8)).join('\n')}\n`);
  },
];

/** A text spoilt one to three times. `other` lends words and lines. */
export const mutate = (text: string, other: string, random: Random): string => {
  let mutant = text;
  for (let times = 1 + below(random, 3); times > 0; times -= 1) {
    const mutation = MUTATIONS[below(random, MUTATIONS.length)];
    if (mutation) mutant = mutation(mutant, random, other);
  }
  return mutant;
};
