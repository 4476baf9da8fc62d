import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { HAZARDS, type Hazard } from '../../src/casebook/scales.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { latestLook } from '../../src/findings/latest-look.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { context, shipped } from '../decision/shipped.ts';
import { flat, runHere } from '../scenarios/run.ts';
import { sample } from '../tiers.ts';
import { textsOf } from './papers.ts';
import { quiltWith } from './quilt-with.ts';

/** A quilt in which rodent waste was noted on 3 March, and what somebody wrote below it. */
const written = (treated: string): string => `mendwise: 1
case: loft-find
quilt: { size: { width: 60 in, height: 70 in } }
survey: { seen: in hand, on: 2026-03-03, findings: { rodent_waste: yes, damp: no } }
${treated}`;

const ENTRY = {
  hazard: 'rodent_waste',
  how: 'wetted with disinfectant',
  by: 'helper-a',
  on: '2026-03-10',
  confirmed_by: 'health department, letter of 11 March',
};
type Changes = Partial<Record<keyof typeof ENTRY | 'found', string | undefined>>;

/** One entry as people write it; a key set to nothing is left out. */
const entry = (changes: Changes = {}): string => {
  const lines = Object.entries({ ...ENTRY, ...changes }).filter(([, value]) => value !== undefined);
  return `{ ${lines.map(([key, value]) => `${key}: ${JSON.stringify(value)}`).join(', ')} }`;
};
const entries = (...each: string[]): string => `treated:\n${each.map((one) => `  - ${one}\n`).join('')}`;

type Slip = readonly [string, Changes, code: string, what: string, marked?: string];

/** What one entry has otherwise, and what is said: code, words, and the words marked (the whole entry where absent). */
const WRONG: readonly Slip[] = [
  [
    'a hazard nobody noted',
    { hazard: 'mould' },
    'hazard-not-noted',
    'mould was dealt with on 2026-03-10, but no look at this quilt notes any',
    '"mould"',
  ],
  [
    'a hazard that a look found to be absent',
    { hazard: 'damp' },
    'hazard-not-noted',
    'damp was dealt with on 2026-03-10, but no look at this quilt notes any',
    '"damp"',
  ],
  [
    'before it was noted',
    { on: '2026-03-02' },
    'dates-disagree',
    'rodent waste was dealt with on 2026-03-02, before it was first noted on 2026-03-03',
    '"2026-03-02"',
  ],
  [
    'a hazard the program does not know',
    { hazard: 'mold' },
    'not-an-option',
    '"mold" is not one of the choices for hazard',
    '"mold"',
  ],
  ...(['nobody', 'No one', 'none', 'n/a', '?', '-', 'not known'] as const).flatMap((nobody): Slip[] => [
    [`by "${nobody}"`, { by: nobody }, 'not-confirmed', `"${nobody}" names nobody`, `"${nobody}"`],
    [
      `on the word of "${nobody}"`,
      { confirmed_by: nobody },
      'not-confirmed',
      `"${nobody}" names nobody`,
      `"${nobody}"`,
    ],
  ]),
  ...['nothing was done', 'Nothing.', 'nothing yet', 'not done', 'none', '--', 'x'].map(
    (how): Slip => [
      `with "${how}"`,
      { how },
      'not-confirmed',
      `"${how}" does not say what was done about rodent waste`,
      `"${how}"`,
    ],
  ),
  [
    'on the word of whoever did it',
    { by: 'Helper A', confirmed_by: 'helper-a' },
    'not-confirmed',
    'rodent waste was dealt with by Helper A, and nobody else confirms it',
    '"helper-a"',
  ],
];
/** What is left out: the command says it of its options, the file of its lines. */
const LACKING: readonly Slip[] = [
  ['by nobody', { by: undefined }, 'missing-key', 'by is missing from treated'],
  ['on nobody’s word', { confirmed_by: undefined }, 'missing-key', 'confirmed_by is missing from treated'],
  ['in no way', { how: undefined }, 'missing-key', 'how is missing from treated'],
  ['on no day', { on: undefined }, 'missing-key', 'on is missing from treated'],
  ['by a blank', { by: ' ' }, 'wrong-kind', 'by wants a few words, not ""', '" "'],
];

/** With the name before it, for the title of its test. */
const named = (slips: readonly Slip[]) => slips.map((slip) => [slip[0], slip] as const);

const reader = findingReader(shipped.vocabulary);
const reading = (treated: string) => readCase('cases/loft-find.yaml', written(treated), reader, []);

describe('a hazard dealt with, written by hand', () => {
  const refused = (treated: string, line: number) => {
    const { case: quiltCase, problems } = reading(treated);
    expect(quiltCase).toBeUndefined();
    expect(problems).toHaveLength(1);
    const { place, ...problem } = problems[0] ?? {};
    expect(place?.line).toBe(line);
    const { text = '', column = 0, length = 0 } = place ?? {};
    return { ...problem, marked: text.slice(column - 1, column - 1 + length) };
  };

  it.each(named([...WRONG, ...LACKING]))(
    '%s: refused, with the place',
    (_, [, changes, code, what, marked]) => {
      const told = refused(entries(entry(changes)), 6);
      expect(told).toMatchObject({ code, what, severity: 'error', marked: marked ?? entry(changes) });
    },
  );

  it('twice on one day: refused, with the place of the second', () => {
    const again = entry({ how: 'wetted again' });
    expect(refused(entries(entry(), again), 7)).toMatchObject({
      code: 'already-there',
      what: 'rodent waste is written down as dealt with on 2026-03-10 already: wetted with disinfectant',
      marked: again,
    });
  });

  it.each([
    ['once', entries(entry())],
    ['on the day it was noted', entries(entry({ on: '2026-03-03' }))],
    ['again on another day', entries(entry(), entry({ on: '2026-03-20' }))],
    ['by a reference, on the word of another', entries(entry({ by: 'H-1', confirmed_by: 'C-014' }))],
    ['noted by mistake', entries(entry({ how: 'noted by mistake: seeds', confirmed_by: 'helper-b' }))],
  ])('%s: taken', (_, treated) => {
    expect(reading(treated)).toMatchObject({ case: { treated: expect.anything() }, problems: [] });
  });
});

describe('a hazard noted on no day', () => {
  const undated = (rest: string) =>
    readCase('cases/loft-find.yaml', written(rest).replace('on: 2026-03-03, ', ''), reader);

  it('cannot be said to have been dealt with afterwards: refused, and how to mend it', () => {
    const { case: quiltCase, problems } = undated(entries(entry({ on: '1990-01-01' })));
    expect(quiltCase).toBeUndefined();
    expect(problems).toMatchObject([
      {
        code: 'missing-key',
        what: 'nothing says on which day rodent waste was noted, so nobody can say that 1990-01-01 came after it',
        cure: expect.stringContaining('"on:" under "survey"'),
      },
    ]);
  });

  it('but told in a first message counts from the day the case was opened', () => {
    const told = (on: string) =>
      readCase(
        'cases/loft-find.yaml',
        written(`opened: 2026-03-01\n${entries(entry({ on }))}`).replace('in hand, on: 2026-03-03', 'photos'),
        reader,
      );
    expect(told('2026-03-10')).toMatchObject({ case: expect.anything(), problems: [] });
    expect(told('2026-02-01').problems).toMatchObject([
      {
        code: 'dates-disagree',
        severity: 'error',
        what: expect.stringContaining('first noted on 2026-03-01'),
      },
    ]);
  });

  it('told, dealt with, and only then seen in hand: read with a warning, and the stop holds', () => {
    const { case: quiltCase, problems } = reading(
      `opened: 2026-03-01\n${entries(entry({ on: '2026-03-02' }))}`,
    );
    expect(problems).toMatchObject([{ code: 'dates-disagree', severity: 'warning' }]);
    expect(quiltCase && latestLook(quiltCase).case.survey.findings.rodent_waste).toBe(true);
  });
});

let folder = '';
const path = () => join(folder, 'cases', 'loft-find.yaml');
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-treated-'));
  cpSync(new URL('../../rules', import.meta.url), join(folder, 'rules'), { recursive: true });
  mkdirSync(join(folder, 'cases'));
});
beforeEach(() => writeFileSync(path(), written('')));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const OPTIONS = {
  hazard: '--hazard',
  how: '--how',
  by: '--by',
  on: '--on',
  confirmed_by: '--confirmed-by',
  found: '--found',
};
const typed = (changes: Changes = {}) => {
  const said = Object.entries({ ...ENTRY, ...changes }) as [keyof typeof OPTIONS, string | undefined][];
  const options = said.flatMap(([key, value]) => (value === undefined ? [] : [OPTIONS[key], value]));
  return runHere('treated', 'loft-find', ...options, '--studio', folder);
};

describe('a hazard dealt with, written by the command', () => {
  it.each(named(WRONG))(
    '%s: refused in the same words, and nothing is written',
    async (_, [, changes, code, what]) => {
      const { code: exit, err } = await typed(changes);
      expect([exit, flat(err)]).toEqual([2, expect.stringContaining(`${what} [${code}]`)]);
      expect(readFileSync(path(), 'utf8')).toBe(written(''));
    },
  );

  it.each([
    ['by nobody', { by: undefined }, '--by is missing [usage]'],
    ['by a blank', { by: '  ' }, '--by is missing [usage]'],
    ['on nobody’s word', { confirmed_by: undefined }, '--confirmed-by is missing [usage]'],
    ['in no way', { how: undefined }, '--how is missing [usage]'],
    ['of no name', { hazard: undefined }, '--hazard is missing [usage]'],
    [
      'by nobody, on nobody’s word',
      { by: '', confirmed_by: '' },
      '--by and --confirmed-by are missing [usage]',
    ],
    ['in the future', { on: '2099-01-01' }, '2099-01-01 has not come yet [bad-date]'],
    ['on a day that is none', { on: 'soon' }, '--on is "soon", which is not a date [bad-date]'],
  ])('%s: refused, and nothing is written', async (_, changes, said) => {
    const { code, err } = await typed(changes);
    expect([code, flat(err)]).toEqual([2, expect.stringMatching(/error: .* Why: .* Do: /)]);
    expect(flat(err)).toContain(said);
    expect(readFileSync(path(), 'utf8')).toBe(written(''));
  });

  it('is refused the second time, and the first entry stays', async () => {
    expect(await typed()).toMatchObject({ code: 0, err: expect.stringContaining('confirmed by health') });
    const once = readFileSync(path(), 'utf8');
    expect(readCase('loft-find.yaml', once, reader).case?.treated).toEqual([ENTRY]);
    const { code, err } = await typed({ how: 'again' });
    expect([code, flat(err)]).toEqual([2, expect.stringContaining('already: wetted with disinfectant')]);
    expect(readFileSync(path(), 'utf8')).toBe(once);
  });

  it('is refused at its place where it was written by hand for a day to come', async () => {
    writeFileSync(path(), written(entries(entry({ on: '2099-12-31' }))));
    const said =
      'rodent waste is written down as dealt with on 2099-12-31, which has not come yet [bad-date]';
    for (const words of [
      ['decide', 'loft-find', '--quick'],
      ['sheet', 'loft-find', '--out', '-'],
    ]) {
      const { code, err } = await runHere(...words, '--studio', folder);
      expect([code, flat(err)]).toEqual([2, expect.stringContaining(said)]);
      expect(flat(err)).toMatch(/loft-find\.yaml:6:\d+: error/);
    }
  });
});

/** How each hazard is noted by the quilts of quilt-with.ts. */
const NOTED_AS: Readonly<Record<Hazard, string>> = {
  mould: 'mould',
  damp: 'damp',
  insects: 'live insects',
  rodent_waste: 'rodent waste',
  sewage_or_fuel: 'sewage or fuel',
  poison: 'poison',
  smell: 'smell',
};
/** What the survey has of each, in the words of its finding. */
const SEEN_AS: Readonly<Record<Hazard, string>> = {
  mould: 'Visible mould: 60 in²',
  damp: 'Damp: Yes',
  insects: 'Live insects: Yes',
  rodent_waste: 'Rodent droppings or urine: Yes',
  sewage_or_fuel: 'Soaked by sewage, fuel or chemicals: Yes',
  poison: 'Bright old green, or a pesticide or mothball smell: Yes',
  smell: 'Smell: Fills the room',
};
const stopsOf = (noted: readonly Hazard[], treated: readonly Hazard[] = [], rest: object = {}): string[] => {
  const how = {
    how: 'as advised',
    by: 'helper-a',
    on: '2026-03-10',
    confirmed_by: 'letter',
    found: 'harmless',
  };
  const quilt = quiltWith(
    noted.map((hazard) => NOTED_AS[hazard]),
    'sound',
    'guest_bed',
    { ...rest, treated: treated.map((hazard) => ({ hazard, ...how })) },
  );
  return stopsIn(quilt);
};
const stopsIn = (quilt: QuiltCase): string[] =>
  evaluate(quilt, context)
    .outcome.standingRules.map(({ id }) => id)
    .sort();
/** Every choice of hazards, 128 of them; where time is short every third. */
const CHOICES = sample(
  Array.from({ length: 2 ** HAZARDS.length }, (_, bits) =>
    HAZARDS.filter((__, index) => bits & (1 << index)),
  ),
  3,
);

describe('what an entry lifts', () => {
  it('is the stop it answers and no other: of all hazards, those not dealt with stop the quilt as if alone', () => {
    for (const treated of CHOICES) {
      const left = HAZARDS.filter((hazard) => !treated.includes(hazard));
      expect(stopsOf(HAZARDS, treated), treated.join(', ')).toEqual(stopsOf(left));
    }
    expect(stopsOf([])).toEqual([]);
  });

  it('would be seen if it lifted another stop, or none: each hazard stops the quilt by its own rules', () => {
    const alone = HAZARDS.map((hazard) => stopsOf([hazard]));
    for (const stops of alone) expect(stops).not.toEqual([]);
    expect(new Set(alone.map((stops) => stops.join())).size).toBe(HAZARDS.length);
  });

  const later = (findings: object) => ({ resurveys: [{ on: '2026-03-20', seen: 'in hand', findings }] });
  const NO_LONGER: Readonly<Record<Hazard, object>> = {
    mould: { mould_area: '0 in2' },
    damp: { damp: 'no' },
    insects: { live_pests: 'no' },
    rodent_waste: { rodent_waste: 'no' },
    sewage_or_fuel: { sewage_or_fuel: 'no' },
    poison: { old_green_or_pesticide: 'no' },
    smell: { odour: 'none' },
  };
  it.each(HAZARDS)(
    '%s: a later look that no longer finds it lifts nothing, and is asked why',
    async (hazard) => {
      const gone = later(NO_LONGER[hazard]);
      expect(stopsOf([hazard], [], gone)).toEqual(stopsOf([hazard]));
      const quilt = quiltWith([NOTED_AS[hazard]], 'sound', 'guest_bed', gone);
      expect((await textsOf(quilt)).terminal).toMatch(/noted at an earlier look/);
      // With an entry there is nothing to ask.
      expect(stopsOf([hazard], [hazard], gone)).toEqual([]);
    },
  );

  const dealtWith = { how: 'as advised', by: 'helper-a', confirmed_by: 'letter' };
  const AGAIN: Readonly<Record<Hazard, object>> = {
    mould: { mould_area: '5 in2' },
    damp: { damp: 'yes' },
    insects: { live_pests: 'yes' },
    rodent_waste: { rodent_waste: 'yes' },
    sewage_or_fuel: { sewage_or_fuel: 'yes' },
    poison: { old_green_or_pesticide: 'yes' },
    smell: { odour: 'in_the_room' },
  };
  // Nobody can say which of the two came first on one day, or when a look without a day was: the stop holds.
  it.each(
    HAZARDS.flatMap((hazard) =>
      (['2026-03-20', '2026-03-21', undefined] as const).map((on) => [hazard, on] as const),
    ),
  )('%s: found again at a look on %s, dealt with on 20 March, it stops the quilt again', (hazard, on) => {
    const answer = hazard === 'poison' ? { ...dealtWith, found: 'harmless' as const } : dealtWith;
    const found = quiltWith([NOTED_AS[hazard]], 'sound', 'guest_bed', {
      resurveys: [{ ...(on === undefined ? {} : { on }), seen: 'in hand', findings: AGAIN[hazard] }],
      treated: [{ hazard, ...answer, on: '2026-03-20' }],
    });
    expect(stopsIn(found)).not.toEqual([]);
    const again = { hazard, ...answer, on: '2026-03-22' };
    if (on !== undefined) expect(stopsIn({ ...found, treated: [again] })).toEqual([]);
  });

  // A look at less of it lifts nothing of what the look before it noted.
  it.each([
    ['much mould', { mould_area: '10 in2' }],
    ['traces on wool', { pest_traces: 'none' }],
    ['live insects', { live_pests: 'no', pest_traces: 'cast_skins' }],
  ])('%s: less of it at a later look stops the quilt as before', (noted, findings) => {
    const resurveys = [{ on: '2026-03-20', seen: 'in hand', findings }];
    const before = stopsIn(quiltWith([noted], 'sound', 'guest_bed'));
    const after = stopsIn(quiltWith([noted], 'sound', 'guest_bed', { resurveys }));
    expect(after).toEqual(expect.arrayContaining(before.filter((id) => id !== 'insect-traces-elsewhere')));
    expect(before).not.toEqual([]);
  });

  it('what was found of it after it was dealt with counts alone: the mould from before is gone', () => {
    const found = quiltWith(['much mould'], 'sound', 'guest_bed', {
      resurveys: [{ on: '2026-03-25', seen: 'in hand', findings: { mould_area: '10 in2' } }],
      treated: [{ hazard: 'mould', ...dealtWith, on: '2026-03-20' }],
    });
    expect(latestLook(found).case.survey.findings.mould_area).toBe(10);
  });

  it.each(HAZARDS)(
    '%s: the survey says what was seen of it, what was done, by whom and on whose word',
    async (hazard) => {
      const done = { hazard, ...dealtWith, on: '2026-03-20' };
      const found = quiltWith([NOTED_AS[hazard]], 'sound', 'guest_bed', { treated: [done] });
      const { survey = '' } = await textsOf(found);
      const said = flat(survey);
      const seen = SEEN_AS[hazard];
      expect(said).toContain(
        `${seen}, noted on 3 March 2026. Dealt with on 20 March 2026 by helper-a: as advised; confirmed by letter.`,
      );
      // Where nothing was done nothing is said of it.
      const alone = quiltWith([NOTED_AS[hazard]], 'sound', 'guest_bed');
      expect(flat((await textsOf(alone)).survey ?? '')).not.toContain('Dealt with');
    },
  );

  it('each look stands in the survey under its own day and helper', async () => {
    const resurveys = [{ on: '2026-03-20', by: 'helper-b', seen: 'photos', findings: { damp: 'no' } }];
    const { survey = '' } = await textsOf(quiltWith([], 'sound', 'guest_bed', { resurveys }));
    expect(flat(survey)).toContain('First survey: Date 3 March 2026; By not known; How in hand');
    expect(flat(survey)).toContain('Later look 1: Date 20 March 2026; By helper-b; How photographs');
  });
});

describe('a test for poison', () => {
  it('has to be told of a test for poison, on the command line', async () => {
    writeFileSync(path(), written('').replace('rodent_waste: yes', 'old_green_or_pesticide: yes'));
    const { code, err } = await typed({ hazard: 'poison' });
    expect([code, flat(err)]).toEqual([2, expect.stringMatching(/--found is missing \[usage\]/)]);
    expect((await typed({ hazard: 'poison', found: 'some' })).code).toBe(2);
    const present = await typed({ hazard: 'poison', found: 'present' });
    expect([present.code, flat(present.err)]).toEqual([0, expect.stringMatching(/was found.*lifts nothing/)]);
  });
});
