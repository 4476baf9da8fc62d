import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Edit, editCase } from '../../src/casebook/edit-case.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import type { Path, Source } from '../../src/source/source.ts';
import { ORCHARD, readOrchard } from './reading.ts';

const source = (text: string = ORCHARD): Source => {
  const read = readYaml('orchard-fourpatch.yaml', text);
  if ('problems' in read) throw new Error(read.problems.map((problem) => problem.what).join('; '));
  return read.source;
};

/** Lines that went and lines that came, in the order of the files. */
const difference = (before: string, after: string): { went: string[]; came: string[] } => {
  const [old, now] = [before.split('\n'), after.split('\n')];
  while (old.length > 0 && old[0] === now[0]) [old, now].map((lines) => lines.shift());
  while (old.length > 0 && old.at(-1) === now.at(-1)) [old, now].map((lines) => lines.pop());
  return { went: old, came: now };
};

const change = (...edits: Edit[]) => difference(ORCHARD, editCase(source(), edits));

describe('editing a case', () => {
  it('changes nothing where nothing is asked for', () => {
    expect(editCase(source(), [])).toBe(ORCHARD);
  });

  it('changes one value and no other byte', () => {
    expect(change({ path: ['quilt', 'backing', 'fragility'], value: 'fragile' })).toEqual({
      went: ['  backing: { kind: own, fragility: worn, damaged: 5 % }'],
      came: ['  backing: { kind: own, fragility: fragile, damaged: 5 % }'],
    });
    expect(change({ path: ['quilt', 'weight'], value: '5 lb' })).toEqual({
      went: ['  weight: 4 lb 8 oz'],
      came: ['  weight: 5 lb'],
    });
  });

  it('adds a line at the end of its group and an entry at the end of its list', () => {
    expect(change({ path: ['survey', 'findings', 'damp'], value: true })).toEqual({
      went: [],
      came: ['    damp: yes'],
    });
    expect(change({ path: ['client', 'wanted_years'], value: 8 }).came).toEqual([
      'client: { ref: C-031, wish: repair, intended_use: guest_bed, hung: no, budget: 900, owners_agree: yes, wanted_years: 8 }',
    ]);
    expect(
      change({ path: ['log', 1], value: { on: '2026-04-13', hours: 3, what: 'resewing joins' } }),
    ).toEqual({
      went: [],
      came: ['  - { on: 2026-04-13, hours: 3, what: resewing joins }'],
    });
    expect(change({ path: ['followups', 0], value: { on: '2027-04-13', holds: true } })).toEqual({
      went: ['followups: []'],
      came: ['followups: [ { on: 2027-04-13, holds: yes } ]'],
    });
  });

  it('adds groups that were not there', () => {
    expect(change({ path: ['survey', 'findings'], value: { damp: false } }).came).toContain('    damp: no');
    expect(change({ path: ['delivered', 'to', 'whom'], value: 'C-031' })).toEqual({
      went: [],
      came: ['delivered:', '  to:', '    whom: C-031'],
    });
  });

  it('writes a new map in the place of the old one, its note kept', () => {
    const map = '. . .\n. x .\n';
    const after = editCase(source(), [{ path: ['survey', 'units'], value: map }]);
    expect(after).toContain(
      "  units: | # the viewer's top left comes first\n    . . .\n    . x .\n  family_map: |",
    );
  });

  it('takes a line out', () => {
    const after = editCase(source(), [{ path: ['approved'], value: undefined }]);
    expect(Object.keys(source(after).value as object)).not.toContain('approved');
    for (const note of [
      '# An invented quilt',
      "# the viewer's top left",
      '# half a day',
      '# one letter each',
    ]) {
      expect(after).toContain(note);
    }
  });

  it('puts words that YAML would misread into quotes', () => {
    for (const value of [
      'a: b',
      '# no note',
      '{ x',
      'tea, milk',
      '- dash',
      '',
      '12',
      'true',
      "it's",
      '*x',
      'a\nb',
    ]) {
      const after = source(editCase(source(), [{ path: ['client', 'ref'], value }])).value;
      expect((after as { client: { ref: unknown } }).client.ref).toBe(value);
    }
  });

  it('keeps Windows line ends and the byte-order mark', () => {
    const windows = `\uFEFF${ORCHARD.replaceAll('\n', '\r\n')}`;
    const after = editCase(source(windows), [{ path: ['quilt', 'weight'], value: '5 lb' }]);
    expect(after).toBe(windows.replace('4 lb 8 oz', '5 lb'));
  });

  it('reads as a case again, with the value asked for', () => {
    const after = editCase(source(), [
      {
        path: ['resurveys', 1],
        value: { on: '2026-04-20', seen: 'in hand', opened: true, findings: { live_pests: true } },
      },
      { path: ['approved', 'hours'], value: 16 },
    ]);
    const { case: read, problems } = readOrchard(after);
    expect(problems).toEqual([]);
    expect(read?.approved?.hours).toBe(16);
    expect(read?.resurveys[1]).toEqual({
      on: '2026-04-20',
      seen: 'in hand',
      opened: true,
      findings: { live_pests: true },
    });
  });
});

const leaves = (value: unknown, path: Path = []): Path[] =>
  value !== null && typeof value === 'object'
    ? Object.entries(value).flatMap(([name, inner]) =>
        leaves(inner, [...path, Array.isArray(value) ? Number(name) : name]),
      )
    : [path];

const NOTES = ORCHARD.match(/#.*$/gm) ?? [];

describe('laws of editing', () => {
  const plain = (text: string): unknown => JSON.parse(JSON.stringify(source(text).value));
  const at = (value: unknown, path: Path): unknown =>
    path.reduce<unknown>((here, name) => (here as Record<string | number, unknown>)[name], value);

  it('leaves every other value and every comment as it was', () => {
    const paths = leaves(source().value);
    const value = fc.oneof(
      fc.integer({ min: 0, max: 99 }),
      fc.string({ maxLength: 12 }),
      fc.constantFrom('weak', '5 %'),
    );
    fc.assert(
      fc.property(fc.constantFrom(...paths), value, (path, wanted) => {
        const after = editCase(source(), [{ path, value: wanted }]);
        const expected = plain(ORCHARD);
        const name = path.at(-1) ?? '';
        (at(expected, path.slice(0, -1)) as Record<string | number, unknown>)[name] = wanted;
        const got = plain(after);
        // A map keeps its last line break, as every map in a file does.
        const map = name === 'units' || name === 'family_map';
        if (map) expect(String(at(got, path)).trimEnd()).toBe(String(wanted).trimEnd());
        else expect(got).toEqual(expected);
        for (const note of NOTES) expect(after).toContain(note);
      }),
      { numRuns: 150 },
    );
  });

  it('comes back to the same bytes when a value is changed and changed back', () => {
    const paths = leaves(source().value).filter(
      (path) => !['units', 'family_map', 'open_at'].includes(String(path.at(-1))),
    );
    fc.assert(
      fc.property(fc.constantFrom(...paths), (path) => {
        const old = at(source().value, path);
        const there = editCase(source(), [{ path, value: 'elsewhere' }]);
        const back = editCase(source(there), [{ path, value: old }]);
        // Quotes around a word are the one thing that may go.
        expect(back.replaceAll('"', '')).toBe(ORCHARD.replaceAll('"', ''));
      }),
      { numRuns: 60 },
    );
  });
});
