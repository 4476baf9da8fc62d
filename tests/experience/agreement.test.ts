import { describe, expect, it } from 'vitest';
import { agreement, drift, gradingReport, type Surveyed } from '../../src/experience/agreement.ts';
import type { Grading } from '../../src/experience/grading.ts';
import type { Scale } from '../../src/statistics/agreement.ts';
import { court } from './court.ts';

const { figures } = court.knowledge;

/** One answer on one of many things. */
const judged = (thing: number, rank: number, scale: Scale): Grading => ({
  finding: 'grade',
  label: 'grade',
  scale,
  path: ['thing', thing],
  thing: `thing ${thing}`,
  value: rank,
  rank,
  def: undefined,
});

const surveys = (rows: Readonly<Record<string, readonly (number | undefined)[]>>, scale: Scale): Surveyed[] =>
  Object.entries(rows).map(([helper, ranks]) => ({
    case: 'a quilt',
    helper,
    judged: ranks.flatMap((rank, thing) => (rank === undefined ? [] : [judged(thing, rank, scale)])),
  }));

const alphaOf = (scale: Scale) => {
  // Krippendorff 2011, Computing Krippendorff's Alpha-Reliability, section C: 4 observers, 12 units, values missing.
  const _ = undefined;
  const table = {
    a: [1, 2, 3, 3, 2, 1, 4, 1, 2, _, _, _],
    b: [1, 2, 3, 3, 2, 2, 4, 1, 2, 5, _, 3],
    c: [_, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, _],
    d: [1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, _],
  };
  return agreement(surveys(table, scale), figures)[0];
};

describe('agreement of helpers', () => {
  it.each([
    ['nominal', 0.743],
    ['ordinal', 0.815],
    ['interval', 0.849],
    ['ratio', 0.797],
  ] as const)('gives Krippendorff’s own %s alpha from surveys with gaps', (scale, alpha) => {
    const found = alphaOf(scale);
    // One of the twelve units was judged by one observer only.
    expect(found?.n).toBe(11);
    expect(found?.coefficients[0]?.value).toBeCloseTo(alpha, 3);
    expect(found?.coefficients[0]?.interval?.low).toBeLessThan(alpha);
    expect(found?.coefficients[0]?.interval?.high).toBeGreaterThan(alpha);
  });

  it('gives Cohen’s kappa for two helpers: the table [[20, 5], [10, 15]] is 0.40', () => {
    // The encyclopaedia's worked example, references.md section 3.
    const pairs = [
      ...Array.from({ length: 20 }, () => [1, 1]),
      ...Array.from({ length: 5 }, () => [1, 0]),
      ...Array.from({ length: 10 }, () => [0, 1]),
      ...Array.from({ length: 15 }, () => [0, 0]),
    ];
    const [found] = agreement(
      surveys({ a: pairs.map(([x]) => x), b: pairs.map(([, y]) => y) }, 'nominal'),
      figures,
    );
    expect(found?.same).toBe(35);
    expect(found?.coefficients.map(({ name }) => name)).toEqual(['Krippendorff’s alpha', 'Cohen’s kappa']);
    expect(found?.coefficients[1]?.value).toBeCloseTo(0.4, 10);
  });

  it('gives Fleiss’ kappa where the same number judged everything: 14 raters, 10 things, 0.210', () => {
    // The encyclopaedia's worked example (often mislabelled Fleiss 1971), references.md section 3.
    const counts = [
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
    ];
    const given = counts.map((row) =>
      row.flatMap((times, category) => Array.from({ length: times }, () => category)),
    );
    const rows = Object.fromEntries(
      Array.from({ length: 14 }, (_, rater) => [`r${rater}`, given.map((one) => one[rater])]),
    );
    const [found] = agreement(surveys(rows, 'nominal'), figures);
    expect(found?.coefficients[1]).toMatchObject({ name: 'Fleiss’ kappa' });
    expect(found?.coefficients[1]?.value).toBeCloseTo(0.21, 3);
  });

  it('counts instead of coefficients below the set number of things', () => {
    const nine = Array.from({ length: 9 }, (_, i) => i % 3);
    const [few] = agreement(surveys({ a: nine, b: nine }, 'ordinal'), figures);
    expect(few).toMatchObject({ n: 9, same: 9, coefficients: [] });
    const ten = [...nine, 1];
    expect(agreement(surveys({ a: ten, b: ten }, 'ordinal'), figures)[0]?.coefficients[0]?.value).toBe(1);
  });

  it('has nothing to tell where everybody always gives one answer', () => {
    const ones = Array.from({ length: 12 }, () => 1);
    const [found] = agreement(surveys({ a: ones, b: ones }, 'nominal'), figures);
    expect(found?.coefficients.map(({ value }) => value)).toEqual([undefined, undefined]);
  });

  it('counts within one step on ordered scales only', () => {
    const rows = { a: [0, 1, 2, 3], b: [0, 2, 0, 3] };
    expect(agreement(surveys(rows, 'ordinal'), figures)[0]).toMatchObject({ n: 4, same: 2, withinOne: 3 });
    expect(agreement(surveys(rows, 'nominal'), figures)[0]?.withinOne).toBeUndefined();
  });
});

describe('drift', () => {
  it('is called only where the exact interval leaves one half out', () => {
    const base = Array.from({ length: 20 }, (_, i) => 1 + (i % 2));
    const harsh = base.map((rank, i) => (i < 8 ? rank + 1 : rank));
    const found = drift(agreement(surveys({ a: base, b: harsh }, 'ordinal'), figures));
    // 8 of 8 harsher: the exact 95 % interval is 0.63 to 1.
    expect(found.map(({ helper, verdict }) => [helper, verdict])).toEqual([
      ['a', 'softer'],
      ['b', 'harsher'],
    ]);
    const once = base.map((rank, i) => (i < 3 ? rank + 1 : rank));
    const little = drift(agreement(surveys({ a: base, b: once }, 'ordinal'), figures));
    expect(little.map(({ verdict }) => verdict)).toEqual(['no drift shown', 'no drift shown']);
    expect(little[1]).toMatchObject({ harsher: 3, softer: 0 });
    expect(little[1]?.meanSteps).toBeCloseTo(0.15, 12);
  });
});

describe('the reference set', () => {
  const agreed = Array.from({ length: 50 }, (_, thing) => judged(thing, 2, 'ordinal'));
  const given = (off: (thing: number) => number) =>
    agreed.map(({ rank }, thing) => judged(thing, rank + off(thing), 'ordinal'));
  const report = (off: (thing: number) => number) =>
    gradingReport('helper-d', [{ case: 'a quilt', agreed, given: given(off) }], figures);

  it('asks for 80 % the same and 98 % within one grade: the trade’s targets, common practice, no source', () => {
    expect(report((thing) => (thing < 10 ? 1 : 0))).toMatchObject({ same: 40, withinOne: 50, met: true });
    expect(report((thing) => (thing < 11 ? 1 : 0))?.met).toBe(false);
    // One of fifty off by two is 98 %; two are not.
    expect(report((thing) => (thing < 1 ? 2 : 0))?.met).toBe(true);
    expect(report((thing) => (thing < 2 ? 2 : 0))?.met).toBe(false);
  });

  it('lists what was missed, the furthest off first', () => {
    const missed = report((thing) => (thing === 7 ? 1 : thing === 30 ? -2 : 0))?.missed;
    expect(missed?.map((one) => one.agreed.thing)).toEqual(['thing 30', 'thing 7']);
  });
});
