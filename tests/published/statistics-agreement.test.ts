import { describe, expect, it } from 'vitest';
import { cohenKappa, fleissKappa, krippendorffAlpha, type Scale } from '../../src/statistics/agreement.ts';

describe('Cohen’s kappa', () => {
  // Encyclopaedia examples, quoted in public test files; the third and the 3 × 3 table (Fleiss, Cohen & Everitt 1969)
  // from memory.
  it.each([
    [
      'half agreement by chance',
      [
        [20, 5],
        [10, 15],
      ],
      0.7,
      0.5,
      0.4,
    ],
    [
      'same agreement, lopsided one way',
      [
        [45, 15],
        [25, 15],
      ],
      0.6,
      0.54,
      0.1304,
    ],
    [
      'same agreement, lopsided the other way',
      [
        [25, 35],
        [5, 35],
      ],
      0.6,
      0.46,
      0.2593,
    ],
    [
      'proportions in three categories',
      [
        [0.53, 0.05, 0.02],
        [0.11, 0.14, 0.05],
        [0.01, 0.06, 0.03],
      ],
      0.7,
      0.475,
      0.42857,
    ],
  ])('meets the worked example: %s', (_what, table, observed, expected, kappa) => {
    const agreement = cohenKappa(table);
    expect(agreement.observed).toBeCloseTo(observed, 10);
    expect(agreement.expected).toBeCloseTo(expected, 10);
    expect(agreement.kappa).toBeCloseTo(kappa, 4);
  });
});

describe('Fleiss’ kappa', () => {
  // Ten subjects, fourteen raters, five categories: encyclopaedia example quoted in public test files, often mislabelled
  // as the 1971 paper’s own.
  it('meets the worked example', () => {
    const agreement = fleissKappa([
      [0, 0, 0, 0, 14],
      [0, 2, 6, 4, 2],
      [0, 0, 3, 5, 6],
      [0, 3, 9, 2, 0],
      [2, 2, 8, 1, 1],
      [7, 7, 0, 0, 0],
      [3, 2, 6, 3, 0],
      [2, 5, 3, 2, 2],
      [6, 5, 2, 1, 0],
      [0, 2, 2, 3, 7],
    ]);
    expect(agreement.observed).toBeCloseTo(0.378, 3);
    expect(agreement.expected).toBeCloseTo(0.213, 3);
    expect(agreement.kappa).toBeCloseTo(0.2099307, 7);
  });
});

const row = (text: string): (number | undefined)[] =>
  text.split(' ').map((mark) => (mark === '.' ? undefined : Number.parseInt(mark, 36)));

describe('Krippendorff’s alpha', () => {
  // Krippendorff 2011, "Computing Krippendorff’s Alpha-Reliability", section C: four observers, twelve units, missing
  // values. Values quoted in public test files; further decimals computed.
  const observers = [
    '1 2 3 3 2 1 4 1 2 . . .',
    '1 2 3 3 2 2 4 1 2 5 . 3',
    '. 3 3 3 2 3 4 2 2 5 1 .',
    '1 2 3 3 2 4 4 1 2 5 1 .',
  ].map(row);
  it.each<[Scale, number, number]>([
    ['nominal', 0.743, 0.743421],
    ['ordinal', 0.815, 0.815388],
    ['interval', 0.849, 0.849107],
    ['ratio', 0.797, 0.797403],
  ])('is as published on a %s scale', (scale, published, computed) => {
    expect(krippendorffAlpha(observers, scale)).toBeCloseTo(published, 3);
    expect(krippendorffAlpha(observers, scale)).toBeCloseTo(computed, 6);
  });
  // Same paper, two observers; values quoted in public test files, data from memory.
  it('is as published for the two smaller examples', () => {
    const binary = ['0 1 0 0 0 0 0 0 1 0', '1 1 1 0 0 1 0 0 0 0'].map(row);
    const nominal = ['a a b b d c c c e d d a', 'b a b b b c c c e d d d'].map(row);
    expect(krippendorffAlpha(binary, 'nominal')).toBeCloseTo(0.095, 3);
    expect(krippendorffAlpha(nominal, 'nominal')).toBeCloseTo(0.692, 3);
  });
  it('is undefined where no two answers can be compared or none differ', () => {
    expect(
      krippendorffAlpha(
        [
          [1, 2, undefined],
          [undefined, undefined, 3],
        ],
        'nominal',
      ),
    ).toBeUndefined();
    expect(
      krippendorffAlpha(
        [
          [2, 2],
          [2, 2],
        ],
        'ordinal',
      ),
    ).toBeUndefined();
  });
});
