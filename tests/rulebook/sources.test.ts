import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { commandLine } from '../../src/cli/command-line.ts';
import { sourcesOf } from '../../src/rulebook/sources.ts';
import type { Terminal } from '../../src/store/terminal.ts';
import { shipped } from '../decision/shipped.ts';

const RULES = new URL('../../rules/', import.meta.url);
const FILES = ['findings.yaml', 'figures.yaml', 'units.yaml'].concat(
  readdirSync(new URL('stages/', RULES)).map((name) => `stages/${name}`),
);

/** What every group with `evidence` and `source` says of itself, read without the program: earlier wordings left out. */
function written(value: unknown): { evidence: string; source: string }[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.entries(value).flatMap(([key, each]) => (key === 'was' ? [] : written(each)));
  if (!('evidence' in value && 'source' in value)) return inner;
  return [{ evidence: String(value.evidence), source: String(value.source).trim() }, ...inner];
}

const sources = sourcesOf(shipped);

const show = async (...args: string[]): Promise<{ code: number; out: string; err: string }> => {
  const told = { out: '', err: '' };
  const terminal: Terminal = {
    out: (text) => {
      told.out += text;
    },
    err: (text) => {
      told.err += text;
    },
    color: false,
    width: 80,
    canAsk: false,
    today: () => '2026-11-27',
    stamp: () => '2026-11-27T10-00-00-000',
  };
  return { code: await commandLine(['rules', 'show', ...args], terminal), ...told };
};

describe('the list of sources', () => {
  it('holds each source of each file once, and counts everything that cites it', () => {
    const all = FILES.flatMap((name) => written(parse(readFileSync(new URL(name, RULES), 'utf8'))));
    const keyed = (each: { evidence: string; source: string }): string => `${each.evidence}: ${each.source}`;
    expect(all.length).toBeGreaterThan(400);
    expect(new Set(sources.map(keyed))).toEqual(new Set(all.map(keyed)));
    expect(sources.length).toBe(new Set(sources.map(keyed)).size);
    for (const each of sources)
      expect(each.rules.length + each.findings.length + each.figures.length, each.source).toBe(
        all.filter((one) => keyed(one) === keyed(each)).length,
      );
  });

  it('names what rests on a source by a name that can be looked up', () => {
    for (const { rules, figures, findings } of sources) {
      for (const id of rules) expect(shipped.rulebook.rules.map((rule) => rule.id)).toContain(id);
      for (const id of figures) expect(shipped.figures.has(id), id).toBe(true);
      for (const id of findings) {
        const [room, rest] = id.split('.');
        const known =
          rest === undefined
            ? shipped.vocabulary.findings.has(id)
            : shipped.vocabulary[room === 'family' ? 'family' : 'unit'].has(rest);
        expect(known, id).toBe(true);
      }
    }
  });

  it('goes from the firmest kind to the weakest, what is remembered after what was seen, then by the alphabet', () => {
    const kinds = sources.map(
      ({ evidence, from_memory }) => `${evidence}${from_memory ? ', from memory' : ''}`,
    );
    const order = kinds.filter((kind, index) => kind !== kinds[index - 1]);
    expect(order.length, order.join('; ')).toBe(new Set(order).size);
    expect(order[0]).toBe('published');
    expect(order).toContain('assumption, from memory');
    for (const kind of order) {
      const names = sources
        .filter((_, index) => kinds[index] === kind)
        .map(({ source }) => source.toLowerCase());
      expect(names).toEqual(names.toSorted());
    }
  });

  it('does not depend on the order in which rules come', () => {
    const rules = shipped.rulebook.rules.toReversed();
    const reversed = { ...shipped, rulebook: { ...shipped.rulebook, rules } };
    expect(sourcesOf(reversed)).toEqual(sources);
  });

  it('gives addresses that can be typed into a browser, not the short names of a notebook', () => {
    const short = /\.blogspot\b(?!\.com\/)|\b(?:com|org|net) \d{4}\/\d{2}/;
    expect('annquiltsblog.blogspot 2012/11').toMatch(short);
    for (const { source } of sources) expect(source).not.toMatch(short);
  });
});

describe('rules show --sources', () => {
  it('prints every source and everything that rests on it', async () => {
    const { code, out } = await show('--sources');
    const flat = out.replace(/\s+/g, ' ');
    expect(code).toBe(0);
    for (const { source, rules, findings, figures } of sources) {
      expect(flat).toContain(`- ${source.replace(/\s+/g, ' ')} `);
      for (const id of [...rules, ...findings, ...figures]) expect(flat).toContain(id);
    }
  });

  it('gives scripts the same list', async () => {
    expect(JSON.parse((await show('--sources', '--json')).out)).toEqual(sources);
  });

  it.each([
    ['a rule', ['ties-need-batting']],
    ['a stage', ['--stage', 'stop']],
    ['history', ['--history']],
  ])('refuses %s beside it, and says what to leave out', async (_, args) => {
    const { code, err } = await show('--sources', ...args);
    expect(code).not.toBe(0);
    expect(err).toContain('--sources lists the sources of all rules');
    expect(err).toContain('leave out --sources');
  });
});
