import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import { contextOf } from '../../src/decision/context.ts';
import { type Decision, decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { foundMap } from '../../src/documents/sections/quilt-pictures.ts';
import { caseFrom } from '../decision/shipped.ts';
import { DAY, papersOf, sheetOf, shippedStudio } from './papers.ts';

/**
 * A quilt of 16 x 13 squares of one fabric each, invented for this: half sound shirting, three squares in ten of a worn
 * print, one in five of a weak brown. Six squares are lost, four have holes, three are frayed; 140 of 387 seams are open.
 */
const [ROWS, COLUMNS] = [16, 13];
const BAD = new Map<number, UnitState>([
  ...[8, 24, 57, 101, 133, 170].map((at): [number, UnitState] => [at, 'lost']),
  ...[30, 72, 118, 190].map((at): [number, UnitState] => [at, 'hole']),
  ...[11, 96, 149].map((at): [number, UnitState] => [at, 'edge']),
]);
const squares = Array.from({ length: ROWS * COLUMNS }, (_, at) => at);
const stateAt = (at: number): UnitState => BAD.get(at) ?? 'sound';
const fabricAt = (at: number): string => {
  if (stateAt(at) === 'edge' || at === 8) return 'B';
  if (BAD.has(at)) return 'C';
  return ['A', 'B', 'A', 'C', 'A', 'A', 'B', 'A', 'C', 'B'][(at * 7) % 10] ?? 'A';
};
const count = (wanted: (at: number) => boolean): number => squares.filter(wanted).length;
const rows = (mark: (at: number) => string): string =>
  Array.from({ length: ROWS }, (_, row) =>
    squares
      .slice(row * COLUMNS, (row + 1) * COLUMNS)
      .map(mark)
      .join(' '),
  ).join('\n');

const NAMES = { A: ['shirting', 'sound'], B: ['print', 'worn'], C: ['brown', 'weak'] } as const;
const families = (told: { shares: boolean; lost: boolean }) =>
  Object.fromEntries(
    Object.entries(NAMES).map(([letter, [name, fragility]]) => [
      letter,
      {
        ...{ name, fragility, fibre: 'cotton', dye_bleed: 'none' },
        ...(told.shares
          ? { share: `${(100 * count((at) => fabricAt(at) === letter)) / squares.length} %` }
          : {}),
        ...(told.lost ? { lost: count((at) => fabricAt(at) === letter && stateAt(at) === 'lost') } : {}),
      },
    ]),
  );
const map = { units: rows((at) => UNIT_STATES[stateAt(at)]) };
const fabrics = { family_map: rows(fabricAt) };
const counts = { counts: { of: squares.length, lost: 6, hole: 4, edge: 3 } };

const WAYS = {
  'both maps': { families: families({ shares: false, lost: false }), ...map, ...fabrics },
  'a map, shares and losses by fabric': { families: families({ shares: true, lost: true }), ...map },
  'a map and shares': { families: families({ shares: true, lost: false }), ...map },
  'counts, shares and losses by fabric': { families: families({ shares: true, lost: true }), ...counts },
  'counts and shares': { families: families({ shares: true, lost: false }), ...counts },
  'counts and a map of fabrics': {
    families: families({ shares: false, lost: false }),
    ...counts,
    ...fabrics,
  },
};

const SURE = Object.fromEntries(
  [
    ...['sewage_or_fuel', 'rodent_waste', 'live_pests', 'damp', 'old_green_or_pesticide', 'museum_quality'],
    ...['outstanding_work', 'for_sale', 'claim_of_others', 'cut_up_wanted'],
  ].map((finding) => [finding, 'no']),
);

const toldBy = (survey: object): QuiltCase =>
  caseFrom({
    mendwise: 1,
    case: 'random',
    opened: '2026-05-25',
    client: {
      ref: 'C-201',
      wish: 'repair',
      intended_use: 'guest_bed',
      hung: 'no',
      budget: 9000,
      owners_agree: 'yes',
    },
    quilt: {
      ...{ title: 'Squares', construction: 'pieced', made: { about: 1950, sure: 'family account' } },
      size: { width: '65 in', height: '80 in' },
      layout: {
        kind: 'edge to edge',
        rows: ROWS,
        columns: COLUMNS,
        finished: '5 in x 5 in',
        pieces_per_unit: 1,
      },
      batting: { kind: 'needled', fibre: 'cotton', rated_gap: '8 in', migrated: '5 %', crumbling: 'no' },
      backing: { kind: 'own', fragility: 'sound', damaged: '0 %' },
      binding: { fragility: 'worn', worn: '10 %' },
      joining: { kind: 'ties', gap: '5 in', missing: '20 %' },
      sewn: { piecing: 'machine' },
    },
    history: [
      { use: 'regular_bed', years: 15, washing: 'machine' },
      { use: 'storage', years: 50 },
    ],
    survey: {
      seen: 'in hand',
      joins: { inspected: 387, open: 140, thread: 120, cloth: 20, allowance: 0 },
      findings: {
        ...SURE,
        ...{
          pest_traces: 'none',
          mould_area: '0 in2',
          odour: 'none',
          inscription: 'none',
          shattering_silk: '0 %',
        },
      },
      ...survey,
    },
  });

const decisions = new Map<string, Promise<Decision>>();
const decided = async (way: keyof typeof WAYS): Promise<Decision> => {
  const made =
    decisions.get(way) ?? shippedStudio().then((studio) => decide(toldBy(WAYS[way]), contextOf(studio, DAY)));
  decisions.set(way, made);
  return made;
};
const ways = Object.keys(WAYS) as (keyof typeof WAYS)[];

describe('one quilt told in six ways', () => {
  it.each(ways)(
    '%s: the same advice, and a price and years within a tenth of those of the whole quilt',
    async (way) => {
      const { answer } = await decided(way);
      const { answer: whole } = await decided('both maps');
      expect([answer.standing, answer.treatment]).toEqual([whole.standing, whole.treatment]);
      expect(answer.reasons[0]?.rule).toBe(whole.reasons[0]?.rule);
      const near = (one: number | undefined, other: number | undefined): void => {
        expect(Math.abs((one ?? 0) / (other ?? 1) - 1)).toBeLessThan(0.1);
      };
      near(answer.estimates?.price.likely, whole.estimates?.price.likely);
      near(answer.estimates?.life_years.middle, whole.estimates?.life_years.middle);
      near(answer.estimates?.hours.likely, whole.estimates?.hours.likely);
    },
  );

  it.each(ways.filter((way) => 'units' in WAYS[way]))(
    '%s: every bad square is drawn where it is',
    async (way) => {
      const decision = await decided(way);
      const drawn = foundMap(new DocumentContext(await papersOf(decision)), 'found');
      const marks = drawn?.plain?.map((line) => line.slice(3).split(' '));
      expect(marks?.flat()).toEqual(squares.map((at) => UNIT_STATES[stateAt(at)]));
      expect(drawn?.description).toContain('lost: 6 blocks');
    },
  );

  it.each(ways)(
    '%s: the work order lists every square that is lost, by its place or as not noted',
    async (way) => {
      const decision = await decided(way);
      const sheet = sheetOf('work', new DocumentContext(await papersOf(decision)));
      const [list] = sheet.sections
        .filter(({ title }) => title === 'Row by row')
        .flatMap(({ blocks }) => blocks.filter((block) => block.kind === 'table'));
      const places = (list?.rows ?? []).flatMap(({ name, cells: [where = ''] }) =>
        name === 'Place not noted' ? [] : where.split(/, | and /),
      );
      const unplaced = (list?.rows ?? []).reduce(
        (sum, { name, cells: [where = ''] }) =>
          name === 'Place not noted' ? sum + Number(/\d+/.exec(where)?.[0] ?? 0) : sum,
        0,
      );
      const treated = Object.values(decision.answer.plan?.actions ?? {}).reduce(
        (sum, { units }) => sum + units,
        0,
      );
      expect(places.length + unplaced).toBe(treated);
      if ('units' in WAYS[way])
        for (const at of squares.filter((each) => stateAt(each) === 'lost'))
          expect(places).toContain(`${'ABCDEFGHIJKLMNOP'[Math.floor(at / COLUMNS)]}${(at % COLUMNS) + 1}`);
    },
  );
});
