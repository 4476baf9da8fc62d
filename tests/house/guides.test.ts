import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS, commandLine } from '../../src/cli/command-line.ts';
import type { Terminal } from '../../src/store/terminal.ts';

/** The guides that are read before the program is known: what they name has to be there. */
const GUIDES = ['README.md', 'DEVELOPERS.md', 'tests/bench/README.md', 'tests/estimates/life/README.md'];
const textOf = (guide: string): string => readFileSync(guide, 'utf8');

/** A run of the program as on 29 November 2026, off a terminal. */
async function told(...args: string[]): Promise<string> {
  let text = '';
  const out = (each: string): void => {
    text += each;
  };
  const terminal: Terminal = {
    out,
    err: out,
    color: false,
    width: 80,
    canAsk: false,
    today: () => '2026-11-29',
    stamp: () => '2026-11-29T10-00-00-000',
  };
  await commandLine(args, terminal);
  return text;
}

/** What stands between backticks or in a fenced block, a line each. */
const codeIn = (text: string): string[] => [
  ...[...text.matchAll(/^```\w*\n([\s\S]*?)^```$/gm)].flatMap(([, block = '']) => block.split('\n')),
  ...[...text.replace(/^```[\s\S]*?^```$/gm, '').matchAll(/`([^`]+)`/g)].map(([, code = '']) => code),
];

/** Commands typed in a line of code, with the options given to each; what is no command of ours is not one. */
const usesIn = (text: string): { words: string; options: string[] }[] =>
  codeIn(text).flatMap((code) =>
    code.split(/&&|\|/).flatMap((part) => {
      const [, typed] = /^(?:npx )?mendwise(?: (.*))?$/.exec(part.trim()) ?? [];
      return typed === undefined ? [] : [{ words: typed, options: typed.match(/--[a-z-]+/g) ?? [] }];
    }),
  );

const names = COMMANDS.map(({ name }) => name).sort((a, b) => b.length - a.length);
const nameOf = (words: string): string | undefined =>
  names.find((name) => `${words} `.startsWith(`${name} `));

const help = new Map<string, string>();
beforeAll(async () => {
  help.set('', await told('--help'));
  for (const name of names) help.set(name, await told(...name.split(' '), '--help'));
});

const optionsOf = (text: string | undefined): string[] => text?.match(/--[a-z][a-z-]*/g) ?? [];

/** What a guide names and the program does not know. */
const unknownIn = (text: string): string[] =>
  usesIn(text).flatMap(({ words, options }) => {
    const name = words.startsWith('-') ? '' : nameOf(words);
    if (name === undefined) return [words];
    const known = optionsOf(help.get(name));
    return options.filter((option) => !known.includes(option)).map((option) => `${name} ${option}`);
  });

describe('the guides', () => {
  it.each(GUIDES)('%s names no command or option that --help does not', (guide) =>
    expect(unknownIn(textOf(guide))).toEqual([]),
  );

  it('would be caught naming one that is gone', () => {
    expect(usesIn(textOf('README.md')).length).toBeGreaterThan(15);
    expect(unknownIn('`mendwise rules mutate`, `mendwise sheet CASE --overwrite`')).toEqual([
      'rules mutate',
      'sheet --overwrite',
    ]);
  });

  it('name options in words only where some command has them', () => {
    const all = [...help.values()].flatMap(optionsOf);
    const ofOthers = ['--config', '--silent', '--import', '--ignore-scripts'];
    for (const guide of GUIDES)
      for (const code of codeIn(textOf(guide)))
        for (const option of optionsOf(code.replace(/(?:npm|npx vitest|node) .*/, '')))
          expect([...all, ...ofOthers], `${guide}: ${option}`).toContain(option);
  });

  it('name no command of the program that README forgets', () => {
    const told = usesIn(textOf('README.md')).map(({ words }) => nameOf(words));
    const forDevelopers = ['rules coverage', 'rules new', 'rules retire', 'rules schema'];
    expect(names.filter((name) => !told.includes(name) && !forDevelopers.includes(name))).toEqual([]);
  });

  it.each(GUIDES)('%s names npm scripts, files and folders that exist', (guide) => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8'));
    const codes = codeIn(textOf(guide));
    const run = codes.flatMap((code) =>
      [...code.matchAll(/npm run (?:--silent )?([\w:]+)/g)].map(([, s]) => s),
    );
    for (const script of run) expect(Object.keys(scripts), guide).toContain(script);
    const paths = codes.flatMap(
      (code) => code.match(/(?:^|(?<=\s))(?:src|tests|rules|cases|\.ci)\/[\w./-]*/g) ?? [],
    );
    for (const path of paths) expect(existsSync(path), `${guide} names ${path}`).toBe(true);
    const links = [...textOf(guide).matchAll(/\]\(([^)#:]+)\)/g)].map(([, link]) => link ?? '');
    for (const link of links)
      expect(existsSync(new URL(link, new URL(guide, `file://${process.cwd()}/`))), `${guide}: ${link}`).toBe(
        true,
      );
  });

  it('show as sample what the program prints', async () => {
    const [, sample] = /^```text\n([\s\S]*?)\n```$/m.exec(textOf('README.md')) ?? [];
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8'));
    const [, typed] = /node dist\/main\.js (.*)$/.exec(scripts.start) ?? [];
    // The digest of the rulebook changes with every comma in it, and says nothing to a reader.
    const alike = (text: string): string => text.replace(/\([0-9a-f]{8}\)/, '(digest)').trim();
    expect(alike(sample ?? ''), 'Run npm start again and put what it prints into README.md').toBe(
      alike(await told(...(typed ?? '').split(' '))),
    );
  });
});
