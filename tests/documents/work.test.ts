import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { UnitState } from '../../src/casebook/scales.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { workOrder } from '../../src/documents/kinds/work.ts';
import type { Sheet, Table } from '../../src/documents/model.ts';
import { openCase } from '../../src/store/case-store.ts';
import { DAY, papersOf, sheetOf, shippedStudio, writingOn } from './papers.ts';

const CASES = readdirSync('cases')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => name.replace('.yaml', ''));

const table = (sheet: Sheet, title: string): Table => {
  const found = sheet.sections
    .filter((section) => section.title === title)
    .flatMap(({ blocks }) => blocks.filter((block) => block.kind === 'table'))[0];
  if (found === undefined) throw new Error(`no table under "${title}"`);
  return found;
};
const ROWS = 'Row by row';
const COUNTS = 'Counts that have to come out even';
const planned = (sheet: Sheet): Map<string, number> =>
  new Map(table(sheet, COUNTS).rows.map(({ name, cells }) => [name, Number(cells[0]?.replaceAll(',', ''))]));

// What a work order holds, and what has to come out even before rows are joined: common practice, no source.
describe('a work order', () => {
  it('lists every place that is worked on once, from the top row down and from the left', async () => {
    const doc = await writingOn('term-time-squares');
    const { rows } = table(sheetOf('work', doc), ROWS);
    expect(rows.map(({ name, cells }) => `${name}: ${cells[0]}`)).toEqual([
      'F, of 10: F8, F9 and F10',
      'G, of 10: G8, G9 and G10',
      'H, of 10: H8, H9 and H10',
      'I, of 10: I9 and I10',
      'J, of 10: J8, J9 and J10',
    ]);
    const places = rows.flatMap(({ cells }) => (cells[0] ?? '').split(/, | and /)).sort();
    expect(places).toEqual([...(doc.answer.plan?.actions.replace?.where ?? [])].sort());
  });

  it('has a box for what comes out where something does, and for what is checked everywhere', async () => {
    const replaced = table(sheetOf('work', await writingOn('term-time-squares')), ROWS);
    expect(replaced.columns.slice(4)).toEqual(['Out', 'In place', 'Checked']);
    for (const { cells } of replaced.rows) expect(cells.slice(3)).toEqual(['☐', '☐', '☐']);
    const supported = table(sheetOf('work', await writingOn('bindweed-ninepatch')), ROWS);
    for (const { cells } of supported.rows) expect(cells.slice(3)).toEqual(['–', '☐', '☐']);
  });

  /** The row table of a case with some of its units otherwise: row, column, state. */
  const rowsWith = async (
    file: string,
    changes: readonly (readonly [row: number, column: number, state: UnitState])[],
  ): Promise<readonly (readonly string[])[]> => {
    const studio = await shippedStudio();
    const { case: quiltCase } = await openCase(`cases/${file}.yaml`, studio);
    const units = (quiltCase.survey.units ?? []).map((row) => [...row]);
    for (const [row, column, state] of changes) (units[row] ?? [])[column] = state;
    const changed = { ...quiltCase, survey: { ...quiltCase.survey, units } };
    const decision = await decide(changed, contextOf(studio, DAY));
    const { rows } = table(sheetOf('work', new DocumentContext(await papersOf(decision))), ROWS);
    return rows.map(({ name, cells: [places = '', , , out = ''] }) => [name, places, out]);
  };

  it('has one line for what is done alike in a row, though the damage differs, from the left', async () => {
    const rows = await rowsWith('bindweed-ninepatch', [[5, 6, 'split']]);
    expect(rows).toContainEqual(['F, of 8', 'F2 and F7', '–']);
  });

  it('has no box for what comes out where cloth is missing, and one beside it where it is not', async () => {
    const rows = await rowsWith('term-time-squares', [[5, 7, 'missing']]);
    expect(rows).toContainEqual(['F, of 10', 'F8', '–']);
    expect(rows).toContainEqual(['F, of 10', 'F9 and F10', '☐']);
  });

  it('says how many of what where there is no map', async () => {
    const { rows } = table(sheetOf('work', await writingOn('opera-cloak-crazy')), ROWS);
    expect(rows.map(({ name, cells }) => [name, ...cells.slice(0, 3)])).toEqual([
      ['Place not noted', '6 patches', 'Covered with sheer cloth', 'weighted taffeta'],
    ]);
  });

  it.each(CASES)('of %s, where there is one, counts parts that add up to all places', async (name) => {
    const doc = await writingOn(name);
    if (workOrder.unfit(doc) !== undefined) return;
    const counts = planned(workOrder.write(doc));
    expect(counts.get('Places in all')).toBe(doc.situation.quilt.total);
    expect(counts.get('All of these together')).toBe(doc.situation.quilt.total);
    // What is put in takes the place of what came out, or of what was missing.
    expect(counts.get('Old pieces taken out, tagged and kept') ?? 0).toBeLessThanOrEqual(
      (counts.get('New pieces put in, spares not counted') ?? 0) + (counts.get('Taken out') ?? 0),
    );
  });

  it('is for what was chosen, drawn and cut and priced by the hour as that', async () => {
    const studio = await shippedStudio();
    const { case: quiltCase } = await openCase('cases/guest-room-percale.yaml', studio);
    const chosen = { ...quiltCase, decisions: [{ on: DAY, kind: 'client', chosen: 'lines' } as const] };
    const decision = await decide(chosen, contextOf(studio, DAY));
    const doc = new DocumentContext(await papersOf(decision));
    expect(decision.answer.treatment).toBe('tie');
    const sheet = sheetOf('work', doc);
    expect(sheet.sections[0]?.title).toBe('Quilt it in lines');
    const steps = table(sheet, 'Hours').rows.map(({ name }) => name);
    expect(steps.some((name) => name.startsWith('Lines by'))).toBe(true);
    expect(steps.some((name) => name.startsWith('Ties'))).toBe(false);
  });

  it.each([
    ['trunk-find', 'the quilt is left as it is'],
    ['bunk-bed-scraps', 'no treatment is recommended or chosen'],
    ['two-cousins-logs', 'what it waits for has to be settled before work begins'],
  ])('is not written for %s: %s', async (name, why) => {
    expect(workOrder.unfit(await writingOn(name))).toContain(why);
  });

  it('stops for the client where the quilt is opened first', async () => {
    const opening: string[] = [];
    for (const name of CASES) {
      const doc = await writingOn(name);
      if (workOrder.unfit(doc) !== undefined) continue;
      const said = JSON.stringify(workOrder.write(doc).sections[0]);
      expect(said.includes('Open the quilt, and stop.'), name).toBe(doc.agreed?.plan.opens);
      if (doc.agreed?.plan.opens === true) opening.push(name);
    }
    expect(opening.length).toBeGreaterThan(0);
  });
});
