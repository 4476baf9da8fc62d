import {
  copyFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../src/decision/answer-model.ts';
import { flat, run, words } from './run.ts';

// Whose word holds when, and what has to be written down with it, is common practice, no source.
const ROOT = new URL('../..', import.meta.url).pathname;
const QUICK = ['--quick', '--as-of', '2026-11-27'];
let folder: string;

const file = (name: string): string => join(folder, 'cases', `${name}.yaml`);
const bring = (name: string): string => {
  copyFileSync(join(ROOT, 'cases', `${name}.yaml`), file(name));
  return readFileSync(file(name), 'utf8');
};
const records = (): string[] => readdirSync(join(folder, 'cases', '.records')).sort();
const decide = (name: string, ...rest: string[]) => run(folder, 'decide', name, ...rest);

/** Changes the copied rules, and fails where there is nothing to change. */
const amend = (rules: string, from: string, to: string): void => {
  const path = join(folder, 'rules', rules);
  const text = readFileSync(path, 'utf8');
  expect(text).toContain(from);
  writeFileSync(path, text.replace(from, to));
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-record-'));
  cpSync(join(ROOT, 'rules'), join(folder, 'rules'), { recursive: true });
  mkdirSync(join(folder, 'cases'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a decision on record', () => {
  const HALF = 'is not a repair\n  when:\n    all:\n      - finding: loss\n        more than: 50 %';

  test('is made again byte for byte after the rules have moved on', async () => {
    bring('honeycomb-remnant');
    const first = await decide('honeycomb-remnant', '--record', ...QUICK);
    expect(first.code).toBe(0);
    expect(flat(first.err)).toBe('Recorded in honeycomb-remnant: decline.');
    expect(first.out).toContain('\nDecline\n');
    amend('stages/extent.yaml', HALF, HALF.replace('50', '60'));
    const fresh = await decide('honeycomb-remnant', ...QUICK);
    expect(fresh.out).toContain('\nGo ahead: put it back together');
    const again = await decide('honeycomb-remnant', '--as-recorded', '--quick');
    expect(again).toEqual({ code: 0, out: first.out, err: '' });
  });

  test('is made again byte for byte with its sweeps, as data, after the case has moved on too', async () => {
    const text = bring('honeycomb-remnant');
    const first = await decide('honeycomb-remnant', '--record', '--json', '--as-of', '2026-11-27');
    amend('stages/extent.yaml', HALF, HALF.replace('50', '60'));
    const recorded = readFileSync(file('honeycomb-remnant'), 'utf8');
    expect(text).toContain('budget: ');
    writeFileSync(file('honeycomb-remnant'), recorded.replace('budget: ', 'budget: 9'));
    const again = await decide('honeycomb-remnant', '--as-recorded', '--json');
    expect(JSON.parse(first.out).would_change).not.toBeNull();
    expect(again.out).toBe(first.out);
  });

  test('keeps the rulebook once by its digest, however many cases were decided by it', async () => {
    bring('honeycomb-remnant');
    bring('bindweed-ninepatch');
    await decide('honeycomb-remnant', '--record', ...QUICK);
    const { out } = await decide('bindweed-ninepatch', '--record', '--json', ...QUICK);
    const { digest } = JSON.parse(out).rulebook;
    expect(records().filter((name) => name.startsWith('rules-'))).toEqual([`rules-${digest}.json`]);
    expect(records().filter((name) => name.startsWith('case-'))).toHaveLength(2);
    amend('stages/extent.yaml', HALF, HALF.replace('50', '60'));
    await decide('bindweed-ninepatch', '--record', ...QUICK);
    expect(records().filter((name) => name.startsWith('rules-'))).toHaveLength(2);
  });

  test('adds to the case file and changes no other byte, comments and order included', async () => {
    const text = bring('bunk-bed-scraps');
    await decide('bunk-bed-scraps', '--record', ...QUICK);
    const once = readFileSync(file('bunk-bed-scraps'), 'utf8');
    expect(once.startsWith(text)).toBe(true);
    expect(once.slice(text.length)).toMatch(/^decisions:\n {2}- on: 2026-11-27\n {4}standing: decline\n/);
    // What a person notes beside an entry stays when the next one comes.
    const noted = once.replace(
      '  - on: 2026-11-27\n',
      '  # told by telephone\n  - on: 2026-11-27   # a Friday\n',
    );
    writeFileSync(file('bunk-bed-scraps'), noted);
    await decide(
      'bunk-bed-scraps',
      '--client',
      'chose',
      'leave',
      '--because',
      'It rests a while.',
      '--risk-note',
      'It wears.',
      ...QUICK,
    );
    const twice = readFileSync(file('bunk-bed-scraps'), 'utf8');
    expect(twice.startsWith(noted)).toBe(true);
    expect(twice.slice(noted.length)).toContain('because: It rests a while.');
  });

  test('an earlier one is made again by number or by day', async () => {
    bring('honeycomb-remnant');
    const first = await decide('honeycomb-remnant', '--record', '--quick', '--as-of', '2026-11-26');
    amend('stages/extent.yaml', HALF, HALF.replace('50', '60'));
    const second = await decide('honeycomb-remnant', '--record', '--quick', '--as-of', '2026-11-27');
    expect(second.out).not.toBe(first.out);
    for (const [which, expected] of [
      ['1', first.out],
      ['2026-11-26', first.out],
      ['2', second.out],
    ] as const)
      expect((await decide('honeycomb-remnant', '--as-recorded', which, '--quick')).out).toBe(expected);
    const none = await decide('honeycomb-remnant', '--as-recorded', '3', '--quick');
    expect(none).toMatchObject({ code: 2, out: '' });
    expect(flat(none.err)).toContain('honeycomb-remnant has no recorded decision 3 [nothing-recorded]');
    expect(flat(none.err)).toContain('Write --as-recorded with one of: 1 (2026-11-26), 2 (2026-11-27).');
  });

  test('is not made again from rules or a case that were altered or are missing', async () => {
    bring('honeycomb-remnant');
    await decide('honeycomb-remnant', '--record', ...QUICK);
    const [theCase, theRules] = records();
    for (const [name, change, how] of [
      [theRules, (text: string) => text.replace('50 %', '70 %'), 'was altered'],
      [theRules, (text: string) => text.slice(0, 5000), 'was altered'],
      [theRules, undefined, 'is missing'],
      [theCase, (text: string) => text.replace('1270', '1170'), 'was altered'],
      [theCase, undefined, 'is missing'],
    ] as const) {
      const path = join(folder, 'cases', '.records', name ?? '');
      const text = readFileSync(path, 'utf8');
      if (change === undefined) rmSync(path);
      else {
        expect(change(text)).not.toBe(text);
        writeFileSync(path, change(text));
      }
      const { code, out, err } = await decide('honeycomb-remnant', '--as-recorded', '--quick');
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(flat(err)).toContain(`${name} ${how} [record-lost]`);
      expect(flat(err)).toContain('Restore the folder cases/.records from a backup.');
      if (change !== undefined) expect((await run(folder, 'doctor')).out).toContain(name);
      writeFileSync(path, text);
    }
    expect((await decide('honeycomb-remnant', '--as-recorded', '--quick')).code).toBe(0);
    expect((await run(folder, 'doctor')).out).not.toContain('.records');
  });

  test('is asked for in vain where none was recorded', async () => {
    bring('honeycomb-remnant');
    expect(await decide('honeycomb-remnant', '--as-recorded', '--quick')).toEqual({
      code: 2,
      out: '',
      err: [
        'error: honeycomb-remnant has no recorded decision   [nothing-recorded]',
        '  Why: There is nothing to make again.',
        '  Do: Record one with "mendwise decide CASE --record".',
        '',
        '1 error',
        '',
      ].join('\n'),
    });
  });
});

describe('deciding otherwise', () => {
  test('records choice, reason, who, when, the answer set aside and the rules it went against', async () => {
    bring('guest-room-percale');
    const { code, out, err } = await decide(
      'guest-room-percale',
      ...['--choose', 'lines', '--because', 'It was always a lined quilt.', '--by', 'helper-a'],
      ...QUICK,
    );
    expect(code).toBe(0);
    expect(out).toContain('Chosen instead on 2026-11-27: quilt it in lines');
    expect(flat(err)).toContain('Recorded in guest-room-percale: your choice: quilt it in lines, against');
    expect(flat(err)).toContain('"weak cloth with batting is tied" (weak-cloth-is-tied)');
    const text = readFileSync(file('guest-room-percale'), 'utf8');
    expect(text).toContain('decisions:\n  - on: 2026-11-27\n');
    for (const line of [
      'by: helper-a',
      'standing: go_ahead',
      'treatment: tie',
      'kind: otherwise',
      'chosen: lines',
      'because: It was always a lined quilt.',
      '  - weak-cloth-is-tied',
    ])
      expect(text).toContain(`    ${line}\n`);
    // Made again, it is the same answer with the same choice; supposed otherwise, the choice is left out and that is said.
    expect((await decide('guest-room-percale', '--as-recorded', '--quick')).out).toBe(out);
    const supposed = await run(
      folder,
      ...words('whatif guest-room-percale intended_use=storage --as-of 2026-11-27'),
    );
    expect(flat(supposed.err)).toBe(
      'Our advice is compared; "quilt it in lines", chosen on 2026-11-27, is not part of it.',
    );
  });

  test('is taken back by going with the advice after all', async () => {
    bring('guest-room-percale');
    await decide(
      'guest-room-percale',
      '--choose',
      'lines',
      '--because',
      'It was always a lined quilt.',
      ...QUICK,
    );
    const { out } = await decide('guest-room-percale', '--record', ...QUICK);
    expect(out).not.toContain('Chosen instead');
    const estimate = await run(
      folder,
      ...words('sheet guest-room-percale --kind estimate --format text --out -'),
      ...QUICK,
    );
    expect(flat(estimate.out)).toContain('Tie its layers together');
    expect(flat(estimate.out)).not.toContain('What has been decided');
  });

  test('never sets a stop aside, whatever is written beside it', async () => {
    const text = bring('cellar-baskets');
    const stopped = await decide(
      'cellar-baskets',
      ...['--choose', 'reassemble', '--because', 'It looks dry.', '--risk-note', 'All owners know.'],
      ...QUICK,
    );
    expect(stopped).toEqual({
      code: 2,
      out: '',
      err: [
        'error: "reassemble" cannot be chosen while "mould is dealt with before any sewing" holds   [stop-stands]',
        '  Why: What stops a quilt can harm people or other quilts, and no wish or',
        '       experience changes that.',
        '  Do: Read what to do now, and who settles it, with "mendwise decide". A hazard',
        '      that was dealt with is written down with "mendwise treated"; looking again',
        '      does not lift it.',
        '',
        '1 error',
        '',
      ].join('\n'),
    });
    expect(readFileSync(file('cellar-baskets'), 'utf8')).toBe(text);
  });

  test('against what the cloth can bear, or a referral, wants a risk note', async () => {
    bring('bunk-bed-scraps');
    bring('album-of-1874');
    const because = ['--because', 'They know it will tear.'];
    expect(await decide('bunk-bed-scraps', '--choose', 'tie', ...because, ...QUICK)).toEqual({
      code: 2,
      out: '',
      err: [
        'error: The choice goes against "weak cloth does not go on a bed that is slept in every night"   [risk-note-wanted]',
        '  Why: The client has to know in writing what is risked, and the documents show',
        '       it.',
        '  Do: Add --risk-note "…" with what may happen.',
        '',
        '1 error',
        '',
      ].join('\n'),
    });
    const referred = await decide('album-of-1874', '--choose', 'tie', ...because, ...QUICK);
    expect(referred).toMatchObject({ code: 2, out: '' });
    expect(flat(referred.err)).toContain(
      '"a quilt from before 1900 is seen by an expert first" [risk-note-wanted]',
    );
    const blank = await decide('album-of-1874', '--choose', 'tie', ...because, '--risk-note', ' ', ...QUICK);
    expect(blank.err).toContain('[risk-note-wanted]');
    expect(
      (await decide('bunk-bed-scraps', '--choose', 'tie', ...because, '--risk-note', 'x', ...QUICK)).code,
    ).toBe(0);
  });

  test('the documents then show the risk note, the reason and the rule it went against', async () => {
    bring('bunk-bed-scraps');
    bring('guest-room-percale');
    const note = 'The print will tear beside the ties within a few years';
    const words = ['--because', 'They know it will tear', '--risk-note', note];
    await decide('bunk-bed-scraps', '--choose', 'tie', ...words, ...QUICK);
    await decide('guest-room-percale', '--choose', 'lines', ...words, ...QUICK);
    const sheet = async (name: string, kind: string): Promise<string> =>
      flat(
        (await run(folder, 'sheet', name, '--kind', kind, '--format', 'text', '--out', '-', ...QUICK)).out,
      );
    for (const [name, kind] of [
      ['bunk-bed-scraps', 'decision'],
      ['bunk-bed-scraps', 'survey'],
      ['bunk-bed-scraps', 'decline'],
      ['guest-room-percale', 'estimate'],
    ] as const) {
      const text = await sheet(name, kind);
      expect(text).toContain('What has been decided');
      expect(text).toContain(`What is risked: ${note}.`);
      expect(text).toContain('The reason given: They know it will tear.');
    }
    expect(await sheet('bunk-bed-scraps', 'decision')).toContain(
      'Our rules spoke against it: “Weak cloth does not go on a bed that is slept in every night”.',
    );
    expect(await sheet('guest-room-percale', 'estimate')).toContain(
      'The figures in this paper are those of what was chosen: to quilt it in lines. They are not those of our advice.',
    );
    expect(
      (await run(folder, 'sheet', 'bunk-bed-scraps', '--format', 'html', '--out', '-', ...QUICK)).out,
    ).toContain(`<strong>What is risked: ${note}.</strong>`);
  });

  test('what was chosen against the advice is priced, drawn up and cared for, though the answer is no', async () => {
    bring('bunk-bed-scraps');
    const paper = (kind: string) =>
      run(folder, 'sheet', 'bunk-bed-scraps', '--kind', kind, '--format', 'text', '--out', '-', ...QUICK);
    const before = await paper('estimate');
    expect(before.code).toBe(2);
    expect(flat(before.err)).toContain('no treatment is recommended or chosen, so there is nothing to price');
    const words = ['--because', 'They know it will tear', '--risk-note', 'It may tear within a year'];
    await decide('bunk-bed-scraps', '--choose', 'tie', ...words, ...QUICK);
    const { out: answer } = await decide('bunk-bed-scraps', '--json', ...QUICK);
    const { standing, treatment, chosen, options } = JSON.parse(answer) as Answer;
    expect({ standing, treatment }).toEqual({ standing: 'decline', treatment: null });
    const tied = options.find((option) => option.treatment === 'tie');
    // Only what somebody agreed to is priced with a deposit.
    expect(tied?.estimates.price.deposit).toBe(0);
    const { price, ...estimates } = tied?.estimates ?? {};
    expect(chosen).toMatchObject({ treatment: 'tie', plan: tied?.plan, estimates });
    expect(chosen?.estimates.price).toEqual({ ...price, deposit: chosen?.estimates.price.deposit });
    expect(chosen?.estimates.price.deposit).toBeGreaterThan(0);
    const estimate = flat((await paper('estimate')).out);
    expect(estimate).toContain('Knots hold the layers, 6 in apart at most.');
    expect(estimate).toContain(`We ask $${chosen?.estimates.price.likely.toLocaleString('en-US')}`);
    expect(estimate).toContain('no buttons where a small child may reach them');
    expect(flat((await paper('care')).out)).toContain(
      "Once repaired, it is meant to be used on a child's bed.",
    );
    const page = flat((await decide('bunk-bed-scraps', ...QUICK)).out);
    expect(page).toContain('Decline Because');
    expect(page).toContain('Chosen instead on 2026-11-27: tie it');
    expect(page).toContain('ties at every crossing, 6 in apart at most');
    // Nothing sets a stop aside: what comes to light afterwards takes the choice back.
    const path = file('bunk-bed-scraps');
    const text = readFileSync(path, 'utf8');
    expect(text).toMatch(/sewage_or_fuel: no/);
    writeFileSync(path, text.replace('sewage_or_fuel: no', 'sewage_or_fuel: yes'));
    const after = await paper('estimate');
    expect(after.code).toBe(2);
    expect(flat(after.err)).toContain('a hazard has to be dealt with first (sewage or fuel)');
    expect(flat((await decide('bunk-bed-scraps', ...QUICK)).out)).toContain(
      'Chosen on 2026-11-27, and to be chosen anew: tie it The choice was not weighed against this:',
    );
    expect(flat((await paper('decision')).out)).toContain('has to be decided anew before any work begins.');
  });

  test.each([
    [
      'no reason',
      ['--choose', 'lines'],
      'The choice has no reason [reason-wanted]',
      'Add --because "…" in a sentence.',
    ],
    [
      'a reason with nothing in it',
      ['--choose', 'lines', '--because', ' '],
      'The choice has no reason [reason-wanted]',
      'Add --because',
    ],
    [
      'no reason for the client either',
      ['--client', 'chose', 'lines'],
      'The choice has no reason [reason-wanted]',
      'Add --because',
    ],
    [
      'a treatment there is not',
      ['--choose', 'ties', '--because', 'x'],
      '"ties" is not a treatment [not-an-option] did you mean "tie"?',
      'Use one of: leave, reassemble, backing, tie, lines.',
    ],
    [
      'two decisions in one',
      ['--choose', 'tie', '--client', 'chose', 'tie', '--because', 'x'],
      '--choose and --client were given together [usage]',
      'Record them one after the other.',
    ],
    [
      'a reason without a decision',
      ['--because', 'x'],
      '--because was given, but nothing is recorded [usage]',
      'Add --record, --choose TREATMENT or --client chose TREATMENT.',
    ],
  ])('is refused with %s, and nothing is written', async (_, words, what, cure) => {
    const text = bring('guest-room-percale');
    const { code, out, err } = await decide('guest-room-percale', ...words, ...QUICK);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(flat(err)).toContain(`error: ${what}`);
    expect(flat(err)).toContain(cure);
    expect(readFileSync(file('guest-room-percale'), 'utf8')).toBe(text);
  });

  test('choosing what is advised anyway does not pass for deciding otherwise', async () => {
    bring('guest-room-percale');
    await decide('guest-room-percale', '--choose', 'tie', '--because', 'As advised.', ...QUICK);
    const text = readFileSync(file('guest-room-percale'), 'utf8');
    expect(text).toContain('kind: recommended\n    chosen: tie\n    because: As advised.');
    expect(text).not.toContain('overrides');
  });
});

describe('the client’s choice', () => {
  test('is kept with the options shown, the day and the rulebook, and the papers tell it', async () => {
    bring('guest-room-percale');
    const { code, err, out } = await decide(
      'guest-room-percale',
      ...['--client', 'chose', 'backing', '--because', 'She likes the back plain', '--json'],
      ...QUICK,
    );
    expect(code).toBe(0);
    expect(flat(err)).toContain("the client's choice: add a backing, held by tacks");
    const answer = JSON.parse(out);
    const text = readFileSync(file('guest-room-percale'), 'utf8');
    expect(text).toContain('kind: client\n    chosen: backing\n    because: She likes the back plain\n');
    expect(text).toContain(`    rulebook: ${answer.rulebook.digest}\n`);
    for (const { treatment } of answer.options) expect(text).toContain(`      - ${treatment}\n`);
    const sheet = (
      await run(folder, 'sheet', 'guest-room-percale', '--format', 'text', '--out', '-', ...QUICK)
    ).out;
    expect(flat(sheet)).toContain(
      'On 27 November 2026 you chose to give it a new back, held by a few small stitches. The reason given: She likes the back plain.',
    );
  });
});
