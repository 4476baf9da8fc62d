import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { add, amend, retire } from '../../src/analysis/revise.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import { readRules } from '../../src/rulebook/read-rules.ts';
import { sayHistory } from '../../src/rulebook/say-rule.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import type { Source } from '../../src/source/source.ts';
import { shipped } from './book.ts';

const EXTENT = readFileSync(new URL('../../rules/stages/extent.yaml', import.meta.url), 'utf8');
const { subjects } = shipped();
const read = (text: string): Source => {
  const reading = readYaml('extent.yaml', text);
  if ('problems' in reading) throw new Error(reading.problems.map(({ what }) => what).join());
  return reading.source;
};
const rulesOn = (text: string, asOf: string) => {
  const { rules, problems } = readRules(read(text), 'extent', subjects);
  expect(problems).toEqual([]);
  return inForce({ version: '', digest: '', rules: [...rules] }, asOf).rules;
};
const SETTING = { path: 'when.all.1.at most', value: '6 %' };
const later = { on: '2027-01-02', reason: 'Six quilts held.' };
const removed = (before: string, after: string): string[] =>
  before.split('\n').filter((line) => !after.split('\n').includes(line));

describe('a rule that is amended', () => {
  const once = amend(read(EXTENT), 'light-loss-stays-closed', [SETTING], later);
  const twice = amend(read(once), 'light-loss-stays-closed', [{ path: 'title', value: 'Little' }], {
    on: '2027-02-02',
    reason: 'Clearer.',
  });

  it('changes the lines it is about and no other', () => {
    expect(removed(EXTENT, once)).toEqual(['        at most: 5 %']);
    expect(once.split('\n').filter((line) => line.startsWith('#'))).toEqual(
      EXTENT.split('\n').filter((line) => line.startsWith('#')),
    );
  });

  it('keeps what stood there, when it ended and why', () => {
    const [rule] = rulesOn(twice, '2027-03-01').filter(({ id }) => id === 'light-loss-stays-closed');
    if (rule === undefined) throw new Error('the rule is gone');
    expect(sayHistory(rule)).toEqual([
      {
        until: '2027-02-02',
        reason: 'Clearer.',
        changed: ['title: A little loss is mended without opening the quilt', 'since: 2027-01-02'],
      },
      {
        until: '2027-01-02',
        reason: 'Six quilts held.',
        changed: ['when.all.1.at most: 5 %', 'since: 2026-11-25'],
      },
    ]);
  });

  it('decides each day as it read on that day', () => {
    const markOn = (day: string) =>
      rulesOn(twice, day)
        .filter(({ id }) => id === 'light-loss-stays-closed')
        .map(({ title, tests }) => [title, tests[1]?.operand]);
    expect(markOn('2026-11-24')).toEqual([]);
    expect(markOn('2027-01-01')).toEqual([['A little loss is mended without opening the quilt', 0.05]]);
    expect(markOn('2027-01-02')).toEqual([['A little loss is mended without opening the quilt', 0.06]]);
    expect(markOn('2027-02-02')).toEqual([['Little', 0.06]]);
  });

  it('is refused where nothing would be otherwise, or before the rule began', () => {
    expect(() =>
      amend(read(EXTENT), 'light-loss-stays-closed', [{ ...SETTING, value: '5 %' }], later),
    ).toThrow(/already/);
    expect(() =>
      amend(read(EXTENT), 'light-loss-stays-closed', [SETTING], { ...later, on: '2020-01-01' }),
    ).toThrow(/before the rule itself/);
    expect(() => amend(read(EXTENT), 'nobody', [SETTING], later)).toThrow(/no rule "nobody"/);
  });
});

describe('a rule that is retired', () => {
  const text = retire(read(EXTENT), 'more-new-than-old', later);
  it('holds until the day before, and stays in the file', () => {
    const holds = (day: string): boolean => rulesOn(text, day).some(({ id }) => id === 'more-new-than-old');
    expect([holds('2027-01-01'), holds('2027-01-02')]).toEqual([true, false]);
    expect(removed(EXTENT, text)).toEqual([]);
  });
  it('is not retired twice', () => {
    expect(() => retire(read(text), 'more-new-than-old', { ...later, on: '2027-05-05' })).toThrow(/already/);
  });
});

describe('a new rule', () => {
  const text = add(read(EXTENT), {
    rule: 'ask-first',
    title: 'Ask first',
    when: { all: [{ finding: 'loss', 'more than': '20 %' }] },
    effects: { ask: 'Which pieces matter most?' },
    because: 'Not all can be saved.',
    evidence: 'studio experience',
    source: 'studio experience, no source',
    since: '2027-01-02',
  });
  it('stands at the end and is in force from its day', () => {
    expect(text.startsWith(EXTENT.trimEnd())).toBe(true);
    expect(rulesOn(text, '2027-01-01').some(({ id }) => id === 'ask-first')).toBe(false);
    expect(rulesOn(text, '2027-01-02').find(({ id }) => id === 'ask-first')?.effects.ask).toBe(
      'Which pieces matter most?',
    );
  });
});
