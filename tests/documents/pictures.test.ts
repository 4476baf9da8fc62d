import fc from 'fast-check';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import { fastenings } from '../../src/documents/pictures/fastenings.tsx';
import { holeMap } from '../../src/documents/pictures/hole-map.tsx';
import { lifeRanges } from '../../src/documents/pictures/life-ranges.tsx';
import { ACTION_LOOKS, STATE_LOOKS } from '../../src/documents/pictures/picture.ts';
import { seamEvidence } from '../../src/documents/pictures/seam-evidence.tsx';
import { unitMap } from '../../src/documents/pictures/unit-map.tsx';
import { layOut } from '../../src/piecework/lay-out.ts';
import { joiningGeometry } from '../../src/piecework/patterns.ts';

const grid = (rows: number, columns: number, kind: 'edge to edge' | 'on point' = 'edge to edge') =>
  layOut(
    { kind, rows, columns, finished: { width: 3, height: 3 } },
    { width: columns * 3, height: rows * 3 },
  );

const map = (rows: number, columns: number, kinds: ReadonlyMap<string, UnitState>) =>
  unitMap({
    id: 'm',
    title: 'A map',
    piecework: grid(rows, columns),
    kinds,
    rest: 'sound',
    looks: STATE_LOOKS,
    unit: ['block', 'blocks'],
    open: [{ a: 'A1', b: 'A2' }],
  });

const texts = (svg: string): string[] =>
  [...svg.matchAll(/>([^<>]+)<\/text>/g)].map((match) => match[1] ?? '');

describe('states and actions', () => {
  it.each([
    ['states', STATE_LOOKS],
    ['actions', ACTION_LOOKS],
  ])('of all %s differ by letter and by pattern, so that colour is never needed', (_, looks) => {
    const all = Object.values(looks);
    expect(new Set(all.map(({ letter }) => letter)).size).toBe(all.length);
    expect(new Set(all.map(({ hatch }) => hatch)).size).toBe(all.length);
  });

  it('bear the letters of the case file', () => {
    for (const [state, mark] of Object.entries(UNIT_STATES))
      if (state !== 'sound') expect(STATE_LOOKS[state as UnitState].letter).toBe(mark);
  });

  it('have no mark in common, so that none means two things', () => {
    const found = Object.values(STATE_LOOKS).map(({ letter }) => letter.toLowerCase());
    const work = Object.values(ACTION_LOOKS).map(({ letter }) => letter.toLowerCase());
    expect(new Set(work).size).toBe(work.length);
    expect(work.filter((mark) => mark !== '' && found.includes(mark))).toEqual([]);
  });
});

describe('the map of a quilt', () => {
  it('shows every unit once, names those that are damaged, and counts them in words', () => {
    const picture = map(
      4,
      5,
      new Map([
        ['B3', 'lost'],
        ['D5', 'hole'],
      ]),
    );
    const svg = renderToString(picture.svg);
    expect(svg.match(/<polygon/g)).toHaveLength(20);
    expect(texts(svg).filter((text) => text === 'x' || text === 'h')).toHaveLength(2);
    expect(picture.description).toContain('lost: 1 block;');
    expect(picture.description).toContain('open seams: 1');
    expect(picture.plain).toEqual(['A  . . . . .', 'B  . . x . .', 'C  . . . . .', 'D  . . . . h']);
  });

  it('has a title and a description that the picture names', () => {
    const svg = renderToString(map(2, 2, new Map([['A1', 'worn']])).svg);
    expect(svg).toMatch(/role="img"[^>]*aria-labelledby="m-title m-desc"/);
    expect(svg).toContain('<title id="m-title">A map</title>');
  });

  it('of 30 by 30 keeps its letters legible and its names apart', () => {
    const kinds = new Map<string, UnitState>(grid(30, 30).units.map(({ at }) => [at, 'lost']));
    const svg = renderToString(map(30, 30, kinds).svg);
    expect(svg.match(/<polygon/g)).toHaveLength(900);
    const [, size] = /<text[^>]*font-size="([\d.]+)"/.exec(svg) ?? [];
    const [, width] = /viewBox="0 0 ([\d.]+)/.exec(svg) ?? [];
    // Printed 165 mm wide; 7 points is what a newspaper sets its smallest type in (from memory).
    const points = (Number(size) * 165 * 72) / (Number(width) * 25.4);
    expect(points).toBeGreaterThanOrEqual(7);
    expect(svg).toContain('class="quilt dense"');
    expect(texts(svg)).toContain('AD');
  });
});

describe('new holes', () => {
  it('are discs whose areas are in proportion to the holes', () => {
    const svg = renderToString(holeMap('h', 'Holes', grid(1, 3), { A1: 400, A2: 100, A3: 0 }).svg);
    const radii = [...svg.matchAll(/<circle[^>]* r="([\d.]+)"/g)].map((match) => Number(match[1]));
    expect(radii).toHaveLength(2);
    expect(((radii[0] ?? 0) / (radii[1] ?? 1)) ** 2).toBeCloseTo(4, 1);
    expect(texts(svg)).toContain('400');
  });
});

describe('lines and ties on the quilt', () => {
  it('are as many as the plan has, on every layout', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.integer({ min: 2, max: 8 }),
        fc.constantFrom('edge to edge' as const, 'on point' as const),
        fc.constantFrom(
          { joining: 'ties' as const, pattern: 'every crossing' as const },
          { joining: 'lines' as const, pattern: 'every seam' as const },
        ),
        (rows, columns, kind, how) => {
          const piecework = grid(rows, columns, kind);
          const spec = { ...how, directions: 'both' as const };
          const picture = fastenings('f', 'F', piecework, spec);
          const { points, lines } = joiningGeometry(piecework, spec);
          const drawn =
            picture === undefined ? 0 : (renderToString(picture.svg).match(/<path /g) ?? []).length;
          expect(drawn).toBe(points.length + lines.length);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('years of all options', () => {
  it('stand on one axis, with what is wished for beside them', () => {
    const ranges = [
      { name: 'Leave', low: 1, high: 4, words: '12 months to 4 years' },
      { name: 'Tie', low: 5, high: 50, words: '5 years to more than 50 years' },
      { name: 'Frail', low: 0, high: 0, words: 'no time at all: what is open needs mending now' },
    ];
    const picture = lifeRanges('y', 'Years', ranges, { horizon: 50, wanted: 10 });
    const svg = renderToString(picture.svg);
    expect(svg.match(/<path d="[^"]*" fill="#/g)).toHaveLength(2);
    for (const { words } of ranges) expect(picture.description).toContain(words);
    expect(picture.key[0]?.words).toBe('what you wish for: 10 years');
  });
});

describe('seams looked at', () => {
  const joins = { total: 300, length: 4, openAt: [], thread: 3, cloth: 1, allowance: 0 };
  it('are one mark each, and open ones are told apart', () => {
    const picture = seamEvidence('s', 'Seams', { ...joins, inspected: 40, open: 5 });
    const svg = picture === undefined ? '' : renderToString(picture.svg);
    expect(svg.match(/<rect x=/g)).toHaveLength(40);
    expect(texts(svg).sort()).toEqual(['?', 'C', 'T', 'T', 'T']);
  });
  it('are not drawn where nobody looked', () => {
    expect(seamEvidence('s', 'Seams', { ...joins, inspected: undefined, open: undefined })).toBeUndefined();
  });
  it('say how many a mark stands for where there are many', () => {
    const picture = seamEvidence('s', 'Seams', { ...joins, inspected: 1000, open: 4 });
    expect(picture?.key.at(-1)?.words).toBe('one mark stands for 5 seams');
  });
});
