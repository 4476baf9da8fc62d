import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/problems/codes.ts';
import { CONDITION_SLIPS } from './condition-slips.ts';
import { brief, readBook } from './reading.ts';
import { RULE_SLIPS } from './rule-slips.ts';
import { type RuleSlip, SOUND } from './sound-rules.ts';

const SLIPS = [...CONDITION_SLIPS, ...RULE_SLIPS];

/** The sound file with one thing wrong; a slip in a rule about units stands in a file of its own. */
function changed({ name, change, units }: RuleSlip): string {
  let text = SOUND;
  for (const [from, to] of change) {
    if (!text.includes(from)) throw new Error(`"${name}" changes what is not there: ${from}`);
    text = text.replace(from, () => to);
  }
  return units === true ? `${text.split('\n\n')[0]}\n` : text;
}

describe('a sound file of rules', () => {
  const { book, problems } = readBook(SOUND);

  it('is read without complaint', () => {
    expect(problems).toEqual([]);
    expect(book.rules.map(({ id }) => id)).toEqual(['no-ties-in-weak-cloth', 'some-loss']);
  });

  it('gives conditions in the house’s units, tests numbered as they stand in the file', () => {
    const some = book.rules.find(({ id }) => id === 'some-loss');
    expect(some?.tests.map(({ leaf, key, comparison, operand }) => [leaf, key, comparison, operand])).toEqual(
      [
        [0, 'finding.loss', 'at least', 0.05],
        [1, 'finding.hung', 'is', true],
      ],
    );
    expect(some?.tests.map(({ place }) => place.line)).toEqual([5, 8]);
  });

  it('knows which rules look at the plan', () => {
    expect(Object.fromEntries(book.rules.map(({ id, perPlan }) => [id, perPlan]))).toEqual({
      'some-loss': false,
      'no-ties-in-weak-cloth': true,
    });
  });

  it('takes its version from the latest change of any rule', () => {
    expect(book.version).toBe('2026-01-05');
    const later = SOUND.replace('since: 2026-01-05\n\n', 'since: 2026-03-01\n\n');
    expect(readBook(later).book.version).toBe('2026-03-01');
  });
});

describe('a slip in a file of rules', () => {
  it.each(SLIPS.map((slip) => [slip.name, slip] as const))('%s is reported where it stands', (_, slip) => {
    const group = slip.units === true ? 'units' : 'structure';
    const { problems } = readBook(changed(slip), group);
    expect(problems.map(brief)).toEqual(slip.said);
    for (const { severity, what, cure, code } of problems) {
      expect(severity).toBe('error');
      expect(what.trim()).not.toBe('');
      // Every problem says how to mend it: in its own words, or in those of its code.
      expect((cure ?? CODES[code].cure).length).toBeGreaterThan(10);
    }
  });

  it('is one of at least twenty-five kinds of slip, each with its own words', () => {
    expect(SLIPS.length).toBeGreaterThanOrEqual(25);
    expect(new Set(SLIPS.map(({ name }) => name)).size).toBe(SLIPS.length);
    for (const { name, said } of SLIPS) expect(said, name).not.toEqual([]);
  });

  it('does not keep others in the file from being reported', () => {
    const text = SOUND.replace('at least: 5 %', 'at lest: 5 %')
      .replace('at least: weak', 'at least: waek')
      .replace('yields to: [some-loss]', 'yields to: [some-lss]');
    expect(readBook(text).problems.map(({ code, place }) => `${place?.line} ${code}`)).toEqual([
      '6 unknown-key',
      '22 not-an-option',
    ]);
  });
});
