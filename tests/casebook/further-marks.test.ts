import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decide } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { workOrder } from '../../src/documents/kinds/work.ts';
import { conditionRows } from '../../src/documents/sections/condition.ts';
import { foundMap } from '../../src/documents/sections/quilt-pictures.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { DAY, papersOf, shippedStudio } from '../documents/papers.ts';

/** Eighty stuffed squares, four of them flat: B2, D5, G3 and I7. */
const FLAT = readFileSync('cases/velveteen-on-the-wall.yaml', 'utf8');
const TORN = FLAT.replace('    . . . . f . . .\n', '    . . . . s . . .\n');
const also = (text: string, list: string): string =>
  text.replace('  joins: {', `  also: [${list}]\n  joins: {`);
const TORN_AND_FLAT = also(TORN, 'D5 flattened');

const read = async (text: string) => {
  const { knowledge } = await shippedStudio();
  return readCase('velveteen-on-the-wall.yaml', text, findingReader(knowledge.vocabulary));
};

const decided = async (text: string) => {
  const { case: quiltCase } = await read(text);
  if (quiltCase === undefined) throw new Error('the case cannot be read');
  return decide(quiltCase, contextOf(await shippedStudio(), DAY));
};

const wrong = async (text: string): Promise<string[]> =>
  (await read(text)).problems.filter(({ severity }) => severity === 'error').map(({ what }) => what);

describe('a unit with more than one mark', () => {
  test('counts once, as its gravest, and what it bears besides counts as found', async () => {
    const { situation } = await decided(TORN_AND_FLAT);
    const count = situation.quilt.groups.reduce((sum, group) => sum + group.count, 0);
    expect(count).toBe(80);
    // Three flat squares and one that is flat besides being torn, of 80.
    expect(situation.facts['finding.flattened_share']).toBeCloseTo(4 / 80);
    expect(situation.facts['finding.split_share']).toBeCloseTo(1 / 80);
    const torn = await decided(TORN);
    expect(torn.situation.facts['finding.flattened_share']).toBeCloseTo(3 / 80);
    expect(situation.facts['finding.loss']).toEqual(torn.situation.facts['finding.loss']);
  });

  test('is mended for both: supported, and filled again, with the hours and the filling of both', async () => {
    const [both, torn] = [await decided(TORN_AND_FLAT), await decided(TORN)];
    const [one, other] = [both.answer.plan?.actions, torn.answer.plan?.actions];
    expect(one?.support).toMatchObject({ units: 1, where: ['D5'] });
    expect(one?.restuff).toMatchObject({ units: 4, where: ['B2', 'D5', 'G3', 'I7'] });
    expect(other?.restuff).toMatchObject({ units: 3 });
    const hours = ({ situation, outcome }: typeof both) =>
      situation.options[outcome.best ?? 0]?.estimator
        .hours()
        .operations.find(({ operation }) => operation === 'filling flat units')?.hours.likely;
    expect((hours(both) ?? 0) / (hours(torn) ?? 1)).toBeCloseTo(4 / 3);
    const fact = both.situation.options[both.outcome.best ?? 0]?.facts['planned.flattened_share'];
    expect(fact).toBe(0);
  });

  test('shows both in the drawing, the list and the counts, and no paper contradicts itself', async () => {
    const doc = new DocumentContext(await papersOf(await decided(TORN_AND_FLAT)));
    const map = foundMap(doc, 'found');
    expect(map?.description).toContain('gone flat besides: 1 block (D5)');
    expect(map?.plain[3]).toContain('sf');
    expect(map?.tally?.counts).toMatchObject({ split: 1, flattened: 3 });
    const damage = conditionRows(doc).find(({ name }) => name === 'Damage')?.text;
    expect(damage).toContain('1 split and 3 gone flat. Some of these are gone flat (D5) as well.');
    // A work order is compared with what the case holds before it is given out.
    const rows = JSON.stringify(workOrder.write(doc).sections);
    expect(rows).toContain('Supported from behind, filled again');
  });

  test('reads older files as before', async () => {
    expect(await wrong(FLAT)).toEqual([]);
    expect((await read(FLAT)).case?.survey.also).toBeUndefined();
  });

  test('is refused where the map says otherwise, with what to write', async () => {
    expect(await wrong(also(TORN, 'A1 flattened'))).toEqual([
      'A1 is sound on the map, so it cannot be flattened as well',
    ]);
    expect(await wrong(also(TORN, 'D5 lost'))).toEqual([
      'D5 is split on the map, so it cannot be lost as well',
    ]);
    expect(await wrong(also(TORN, 'Z9 flattened'))).toEqual(['there is no unit Z9 on this quilt']);
    expect(await wrong(also(TORN, 'D5 flat'))).toEqual(['"D5 flat" does not name a unit and a further mark']);
    expect(await wrong(also(TORN, 'D5 flattened, D5 f'))).toEqual([
      'D5 is said twice to be flattened as well',
    ]);
  });
});
