import { describe, expect, test } from 'vitest';
import { readFigures } from '../../src/figures/read-figures.ts';
import { ProblemError } from '../../src/problems/problem.ts';
import { readYaml } from '../../src/source/read-yaml.ts';

const read = (text: string): ReturnType<typeof readFigures> => {
  const reading = readYaml('figures.yaml', text);
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  return readFigures(reading.source);
};

const KNOWN = 'evidence: assumption, source: none, since: 2026-11-25';

/** What is wrong and where, as line:column. */
const faults = (text: string): string[] =>
  read(text).problems.map(({ code, place }) => `${code} ${place?.line}:${place?.column}`);

describe('figures read from a file', () => {
  const { figures, problems } = read(`
hours:
  tie: { low: 1.3, likely: 2, high: 3, unit: min, per: tie, ${KNOWN} }
  join:
    hand: { value: 7, unit: min, per: 12 in, spread: 0.2, ${KNOWN} }
waste: { value: 8 %, ${KNOWN}, note: for strips, was: [{ until: 2026-01-01, value: 5 % }] }
`);

  test('are found by their dotted id', () => {
    expect(problems).toEqual([]);
    expect(figures?.range('hours.tie')).toEqual({ low: 1.3, likely: 2, high: 3 });
    expect(figures?.figure('hours.join.hand')).toEqual({
      id: 'hours.join.hand',
      low: 7,
      likely: 7,
      high: 7,
      unit: 'min per 12 in',
      spread: 0.2,
      evidence: 'assumption',
      source: 'none',
      since: '2026-11-25',
    });
    expect(figures?.number('waste')).toBe(0.08);
  });

  test('list the names directly below a group', () => {
    expect(figures?.below('hours')).toEqual(['join', 'tie']);
    expect(figures?.below('hours.tie')).toEqual([]);
    expect(figures?.has('hours.join')).toBe(false);
  });

  test('a missing one is reported by name, with a near miss', () => {
    const thrown = (): unknown => {
      try {
        return figures?.number('hours.tye');
      } catch (error) {
        return error instanceof ProblemError ? error.problems[0] : error;
      }
    };
    expect(thrown()).toMatchObject({ code: 'missing-figure', didYouMean: 'hours.tie' });
  });
});

describe('a figure that cannot be used', () => {
  test.each([
    ['misspelt key', `a: { value: 1, evidense: x, ${KNOWN} }`, 'unknown-key 1:16'],
    ['no evidence', 'a: { value: 1, source: none, since: 2026-11-25 }', 'missing-key 1:1'],
    ['no source', 'a: { value: 1, evidence: assumption, since: 2026-11-25 }', 'missing-key 1:1'],
    ['no date', 'a: { value: 1, evidence: assumption, source: none }', 'missing-key 1:1'],
    [
      'another kind of evidence',
      'a: { value: 1, evidence: guess, source: none, since: 2026-11-25 }',
      'not-an-option 1:26',
    ],
    [
      'no such day',
      'a: { value: 1, evidence: assumption, source: none, since: 2026-02-30 }',
      'bad-date 1:59',
    ],
    ['low above likely', `a: { low: 3, likely: 2, high: 4, ${KNOWN} }`, 'out-of-range 1:11'],
    ['high below likely', `a: { low: 1, likely: 2, high: 1.5, ${KNOWN} }`, 'out-of-range 1:31'],
    ['two of three', `a: { low: 1, high: 2, ${KNOWN} }`, 'missing-key 1:1'],
    ['value and low', `a: { value: 1, low: 1, ${KNOWN} }`, 'unknown-key 1:16'],
    ['words for a number', `a: { value: many, ${KNOWN} }`, 'wrong-kind 1:13'],
    ['not finite', `a: { value: .inf, ${KNOWN} }`, 'wrong-kind 1:13'],
    ['negative spread', `a: { value: 1, spread: -1, ${KNOWN} }`, 'out-of-range 1:24'],
    ['a bare number', 'a: { b: 3 }', 'wrong-kind 1:6'],
    ['an empty group', 'a: {}', 'missing-key 1:1'],
    ['a dot in a name', `a.b: { value: 1, ${KNOWN} }`, 'unknown-key 1:1'],
    ['a list', '- 1', 'wrong-kind 1:1'],
    ['history that is no list', `a: { value: 1, was: yes, ${KNOWN} }`, 'wrong-kind 1:21'],
  ])('%s', (_, text, fault) => {
    expect(faults(text)).toEqual([fault]);
    expect(read(text).figures).toBeUndefined();
  });

  test('a figure without any amount is told from a group', () => {
    expect(read('a: { unit: h }').problems[0]?.what).toContain('neither value nor low, likely and high');
  });

  test('a misspelt key is answered with the near one', () => {
    expect(read(`a: { value: 1, sprad: 1, ${KNOWN} }`).problems[0]?.didYouMean).toBe('spread');
  });

  test('all faults of a file come back together', () => {
    expect(faults(`a: { value: x, ${KNOWN} }\nb: { low: 1, ${KNOWN} }`)).toHaveLength(3);
  });
});
