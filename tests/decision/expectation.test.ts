import { describe, expect, test } from 'vitest';
import type { Answer } from '../../src/decision/answer-model.ts';
import { differences } from '../../src/decision/expectation.ts';

/** Only what is compared. */
const answer = {
  standing: 'decline',
  treatment: null,
  provisional: false,
  refused_uses: ['infant_sleep'],
  reasons: [{ rule: 'shattering-silk' }],
  cautions: [{ rule: 'silk-is-not-touched' }],
  conditions: [],
  offers: [],
  ask_others: [],
  asks: [],
} as unknown as Answer;

const what = (expected: Parameters<typeof differences>[0]): string[] =>
  differences(expected, answer).map((each) => each.what);

describe('an answer against what its case expects', () => {
  test('what is not expected is not compared', () => expect(what({})).toEqual([]));

  test('no treatment is something to expect', () => {
    expect(what({ standing: 'decline', treatment: null })).toEqual([]);
    expect(what({ treatment: 'tie' })).toEqual(['treatment is none, not tie']);
  });

  test('names each thing that differs', () => {
    expect(
      what({
        standing: 'go_ahead',
        provisional: true,
        because: ['shattering-silk', 'silk-is-not-touched', 'mould-dries-first'],
        not_because: ['shattering-silk'],
        refused_uses: [],
      }),
    ).toEqual([
      'standing is decline, not go_ahead',
      'provisional is no, not yes',
      'the rule mould-dries-first is not cited',
      'the rule shattering-silk is cited',
      'refused uses is infant_sleep, not none',
    ]);
  });
});
