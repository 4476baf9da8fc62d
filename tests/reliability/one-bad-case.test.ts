import {
  copyFileSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { run, runHere } from '../scenarios/run.ts';
import { firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);

/** Leaves of a case of every kind: date, yes/no, area, length, share, choice, map, number, name, list. */
const LEAVES = [
  ['opened'],
  ['client', 'owners_agree'],
  ['client', 'intended_use'],
  ['quilt', 'size', 'width'],
  ['quilt', 'backing', 'damaged'],
  ['quilt', 'layout'],
  ['survey', 'on'],
  ['survey', 'units'],
  ['survey', 'joins', 'open'],
  ['survey', 'findings', 'mould_area'],
  ['survey', 'findings', 'damp'],
  ['survey', 'families', 'A', 'fragility'],
  ['history'],
  ['expect', 'standing'],
] as const;
/** What stands there by a slip of the keyboard: each was seen to end a list, or might. */
const SLIPS = [{}, { a: 1 }, [{ a: 1 }], null, 'x'.repeat(50_000)];

/** Writes one case for each leaf, with one slip in it; gives their names. */
function plantSlips(): string[] {
  const text = readFileSync(at('cases', `${name()}.yaml`), 'utf8');
  return LEAVES.map((leaf, index) => {
    const changed = parseDocument(text);
    const slipped = `slip-${index}`;
    changed.set('case', slipped);
    changed.setIn(leaf, changed.createNode(SLIPS[index % SLIPS.length]));
    writeFileSync(at('cases', `${slipped}.yaml`), changed.toString());
    return slipped;
  });
}

interface Line {
  readonly case: string;
  readonly standing?: string;
  readonly problem?: { readonly code: string; readonly what: string; readonly place?: object };
}

describe('one bad leaf in each of many cases', () => {
  it('is a line of the list with its place beside the good case, and exit codes are as told', async () => {
    const good = name();
    const slipped = plantSlips();
    const { code, out } = await runHere('cases', '--json', '--studio', at());
    expect(code).toBe(0);
    const lines: Line[] = JSON.parse(out);
    expect(lines.map((line) => line.case).sort()).toEqual([good, ...slipped].sort());
    expect(lines.find((line) => line.case === good)?.standing).toBe('go_ahead');
    // Where a value may be left out, nothing in its place is no fault.
    const faulty = slipped.filter((_, index) => SLIPS[index % SLIPS.length] !== null);
    expect(faulty.length).toBeGreaterThan(LEAVES.length / 2);
    for (const each of faulty) {
      const { problem } = lines.find((line) => line.case === each) ?? {};
      expect(problem, each).toMatchObject({ code: expect.not.stringMatching(/internal/) });
      expect(problem?.place, each).toBeDefined();
    }
    const checked = await runHere('cases', '--check', '--studio', at());
    expect(checked.code).toBe(1);
    const whole = await runHere('cases', '--studio', at());
    for (const each of faulty) expect(whole.out).toContain(each);

    const { told } = await examine();
    const named = told.filter(({ kind }) => kind === 'unreadable-case').map(({ file }) => file);
    expect(named).toEqual(expect.arrayContaining(faulty.map((each) => `cases/${each}.yaml`)));
  });
});

interface Told {
  readonly kind: string;
  readonly file: string;
  readonly what: string;
  readonly cure: string;
}
async function examine(): Promise<{ code: number | null; told: Told[] }> {
  const { code, out, err } = await run(at(), 'doctor', '--json');
  expect(err).toBe('');
  return { code, told: JSON.parse(out) };
}

/** Each would end an examination. `named` is what it must say of it. */
const STUMBLING: readonly (readonly [string, plant: () => void, named: RegExp])[] = [
  [
    'a file where the folder of cases belongs',
    () => {
      renameSync(at('cases'), at('kept-cases'));
      writeFileSync(at('cases'), '');
    },
    /cases cannot be read: a part of the path is not a folder/,
  ],
  [
    'a link to nothing among the former versions',
    () => {
      mkdirSync(at('cases', '.history'), { recursive: true });
      symlinkSync('nowhere', at('cases', '.history', 'gone.2026-01-01T00-00-00-000.yaml'));
    },
    /cannot be brought back as it is: there is no file/,
  ],
  [
    'a device among what decisions were made from',
    () => {
      mkdirSync(at('cases', '.records'), { recursive: true });
      symlinkSync('/dev/zero', at('cases', '.records', 'case-0123456789abcdef.yaml'));
    },
    /has been altered/,
  ],
  ['a device for a case', () => symlinkSync('/dev/zero', at('cases', 'odd.yaml')), /not an ordinary file/],
  [
    'a folder for a file of rules',
    () => {
      rmSync(at('rules', 'figures.yaml'));
      mkdirSync(at('rules', 'figures.yaml'));
    },
    /is a folder, not a file/,
  ],
  [
    'a folder for the settings',
    () => {
      rmSync(at('studio.yaml'));
      mkdirSync(at('studio.yaml'));
    },
    /is a folder, not a file/,
  ],
];

describe('a studio looked over goes on past', () => {
  it.each(STUMBLING)('%s', async (_, plant, named) => {
    // A second fault of another kind: it must be told all the same.
    writeFileSync(at('rules', 'stages', 'stopp.yaml'), '[]\n');
    plant();
    const { code, told } = await examine();
    expect(code).toBe(1);
    expect(told.map(({ kind }) => kind)).toContain('extra-rules');
    const found = told.filter(({ what }) => named.test(what));
    expect(found, JSON.stringify(told)).toHaveLength(1);
    expect(found[0]?.cure).not.toBe('');
  });
});

describe('what cases exercise of the rules', () => {
  it('is told in spite of files that are no case, which are named', async () => {
    copyFileSync(at('cases', `${name()}.yaml`), at('cases', 'torn.yaml'));
    symlinkSync('nowhere', at('cases', 'odd.yaml'));
    const { code, out, err } = await runHere('rules', 'coverage', '--studio', at());
    // Which rules the cases exercise is told of those that read; the exit code says that it is not all.
    expect([code, out]).toEqual([2, expect.stringMatching(/\d+ rules/)]);
    expect(err).toMatch(/odd\.yaml/);
    expect(err).toMatch(/torn\.yaml/);
  });
});
