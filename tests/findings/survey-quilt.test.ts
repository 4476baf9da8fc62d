import { describe, expect, it } from 'vitest';
import { isPlaced } from '../../src/findings/survey-groups.ts';
import { family, letters, sketch, states, surveyed } from './quilts.ts';

const sizes = (c: Parameters<typeof surveyed>[0]) =>
  surveyed(c).groups.map(({ state, family: of, count, where }) => [state, of, count, where?.join(' ')]);

const small = { rows: 2, columns: 3 };

describe('sorting units into groups', () => {
  it('takes state and family from the two maps', () => {
    const c = sketch({
      ...small,
      survey: {
        families: { A: family('worn'), B: family('sound') },
        units: states('. x .', '. . h'),
        family_map: letters('A A B', 'B B A'),
      },
    });
    expect(sizes(c)).toEqual([
      ['sound', 'A', 1, 'A1'],
      ['sound', 'B', 3, 'A3 B1 B2'],
      ['hole', 'A', 1, 'B3'],
      ['lost', 'A', 1, 'A2'],
    ]);
    expect(surveyed(c).families.A?.share).toBe(0.5);
  });

  it('shares a map without families out by their shares, and says which places are supposed', () => {
    const units = states('. x .', '. . .');
    const two = { A: family('worn', { share: 0.5 }), B: family('sound', { share: 0.5 }) };
    const quilt = surveyed(sketch({ ...small, survey: { families: two, units } }));
    const told = quilt.groups.map(({ state, family: letter, count, least, most, among }) => [
      ...[state, letter, count, Math.round(least * 6), Math.round(most * 6)],
      among?.join(' '),
    ]);
    // Three of each fabric: the lost one is of either, so two or three of each are left.
    expect(told).toEqual([
      ['sound', 'A', 2, 2, 3, 'A1 A3 B1 B2 B3'],
      ['sound', 'B', 3, 2, 3, 'A1 A3 B1 B2 B3'],
      ['lost', 'A', 1, 0, 1, 'A2'],
      ['lost', 'B', 0, 0, 1, 'A2'],
    ]);
    expect(quilt.groups.map(isPlaced)).toEqual([false, false, true, false]);
    expect(sizes(sketch({ ...small, survey: { families: { A: family('worn') }, units } }))).toEqual([
      ['sound', 'A', 5, 'A1 A3 B1 B2 B3'],
      ['lost', 'A', 1, 'A2'],
    ]);
  });

  it("uses the families' own counts of lost pieces on such a map", () => {
    const families = {
      A: family('worn', { share: 0.5, lost: 1 }),
      B: family('sound', { share: 0.5, lost: 0 }),
    };
    const c = sketch({ ...small, survey: { families, units: states('. x .', '. . .') } });
    expect(sizes(c)[2]).toEqual(['lost', 'A', 1, 'A2']);
  });

  it("shares out counts by families' shares and losses, and always adds up", () => {
    const c = sketch({
      survey: {
        families: {
          A: family('weak', { share: 0.35, lost: 20 }),
          B: family('sound', { share: 0.65, lost: 2 }),
        },
        counts: { of: 100, lost: 24, split: 3 },
      },
    });
    expect(sizes(c)).toEqual([
      ['sound', 'A', 14, undefined],
      ['sound', 'B', 59, undefined],
      ['split', 'A', 1, undefined],
      ['split', 'B', 2, undefined],
      ['lost', 'A', 20, undefined],
      ['lost', 'B', 2, undefined],
      ['lost', undefined, 2, undefined],
    ]);
  });

  it('calls everything unseen where nothing was counted', () => {
    expect(sizes(sketch(small))).toEqual([['unseen', undefined, 6, undefined]]);
    const families = { A: family('weak', { share: 0.5 }), B: family('sound', { share: 0.5, lost: 1 }) };
    expect(sizes(sketch({ ...small, survey: { families } }))).toEqual([
      ['lost', 'B', 1, undefined],
      ['unseen', 'A', 3, undefined],
      ['unseen', 'B', 2, undefined],
    ]);
  });
});

describe('grades', () => {
  it('read from photos are the best the cloth can be', () => {
    const survey = { families: { A: family('weak') } };
    expect(surveyed(sketch({ survey })).families.A?.fragility).toBe(2);
    expect(surveyed(sketch({ survey: { ...survey, seen: 'photos' } })).families.A?.fragility).toEqual({
      lo: 2,
      hi: 4,
    });
  });

  it('not stated may be anything', () => {
    expect(surveyed(sketch({ survey: { families: { A: {} } } })).families.A?.fragility).toEqual({
      lo: 0,
      hi: 4,
    });
  });
});

describe('later looks', () => {
  const photos = sketch({
    ...small,
    survey: {
      seen: 'photos',
      families: { A: family('worn'), B: family('sound') },
      units: states('...', '..?'),
    },
    case: {
      resurveys: [
        { seen: 'in hand', families: { A: { fragility: 'weak' } } },
        { counts: { of: 6, lost: 2 } },
      ],
    },
  });

  it('override what they state and keep the rest', () => {
    const quilt = surveyed(photos);
    expect(quilt.families.A).toMatchObject({ fragility: 2, fibre: 'cotton' });
    expect(quilt.groups.some(({ where }) => where !== undefined)).toBe(false);
    const lost = quilt.groups.filter(({ state }) => state === 'lost');
    expect(lost.reduce((sum, { count }) => sum + count, 0)).toBe(2);
  });

  it('count by their dates, and opening a quilt takes it in hand', () => {
    const c = sketch({
      survey: { seen: 'photos', families: { A: family('sound') } },
      case: {
        resurveys: [
          { on: '2026-04-01', opened: true, families: { A: { fragility: 'fragile' } } },
          { on: '2026-03-20', seen: 'in hand', families: { A: { fragility: 'weak' } } },
        ],
      },
    });
    expect(surveyed(c).families.A?.fragility).toBe(3);
  });

  it('do not turn a grade from photos into one from the hand', () => {
    expect(surveyed(photos).families.B?.fragility).toEqual({ lo: 0, hi: 4 });
  });
});

describe('seams', () => {
  const joinsOf = (joins: object) => surveyed(sketch({ survey: { joins } })).joins;

  it('gives the last unnamed cause what is left', () => {
    expect(joinsOf({ inspected: 180, open: 12, thread: 8, cloth: 3 })).toMatchObject({ allowance: 1 });
    expect(joinsOf({ inspected: 180, open: 12, thread: 12 })).toMatchObject({ cloth: 0, allowance: 0 });
    expect(joinsOf({ inspected: 180, open: 12, thread: 8 })).toMatchObject({
      cloth: undefined,
      allowance: undefined,
    });
    expect(joinsOf({ inspected: 180, thread: 8, cloth: 3, allowance: 1 })).toMatchObject({ open: 12 });
  });

  it('counts a list of open seams', () => {
    const joins = joinsOf({
      inspected: 180,
      open_at: [
        { between: ['A1', 'A2'], cause: 'cloth' },
        { between: ['B2', 'C2'], cause: 'thread' },
      ],
    });
    expect(joins).toMatchObject({ open: 2, thread: 1, cloth: 1, allowance: 0 });
  });

  it('estimates seams between patches: n × n squares have 2n(n − 1)', () => {
    const grid = { layout: { kind: 'survey grid', rows: 4, columns: 4 } } as const;
    const squares = surveyed(sketch({ quilt: grid, survey: { counts: { of: 100 } } }));
    expect(squares.joins).toMatchObject({ total: 180, length: 10 });
    const hexagons = surveyed(
      sketch({ quilt: { ...grid, construction: 'hexagon' }, survey: { counts: { of: 100 } } }),
    );
    // 10 × 10 hexagons in offset rows: 90 shared sides along the rows and 9 × 19 between them.
    expect(hexagons.joins.total).toBe(90 + 9 * 19);
  });
});
