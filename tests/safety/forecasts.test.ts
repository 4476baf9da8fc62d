import { beforeAll, describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { compareAnswers } from '../../src/decision/questions/compare.ts';
import { printComparison } from '../../src/documents/terminal/comparison.ts';
import { FORECAST_NOTE } from '../../src/estimates/life/model.ts';
import { sourcesOf } from '../../src/rulebook/sources.ts';
import { CASE_FILES, context, shipped, shippedCase } from '../decision/shipped.ts';
import { demoCase } from '../experience/court.ts';
import { textsOf } from './papers.ts';

// The years to the next repair are a forecast that no study of repaired quilts backs (issue 14: every place that states
// years says, in one line, what they rest on). Here everything a person is given of a case is read for such years.

const STATED: readonly RegExp[] = [
  /next repair due in (?!no forecast|none)/i,
  /time until the next repair/i,
  /next repair is expected in/i,
  /mending again (?:in|within|sooner)/i,
];
const RESTS_ON =
  /no published study|no study of repaired quilts|which no study backs|nobody has published a study/i;

const flat = (text: string): string => text.replace(/\s+/g, ' ');
const states = (text: string): boolean => STATED.some((pattern) => pattern.test(flat(text)));
const isBare = (text: string): boolean => states(text) && !RESTS_ON.test(flat(text));

/** Finished work, so that reports are read too. */
const FINISHED = ['foundry-row-fourpatch', 'almond-lane-squares'];
/** Two years in the shade are less than one in the sun. */
const inTheSun = (): QuiltCase => {
  const shaded = shippedCase('term-time-squares.yaml');
  const findings = { ...shaded.survey.findings, direct_light: true };
  return { ...shaded, case: IN_THE_SUN, survey: { ...shaded.survey, findings } };
};
const IN_THE_SUN = 'term-time-squares-in-the-sun';

const texts: { where: string; kind: string; text: string }[] = [];

beforeAll(async () => {
  for (const quiltCase of [...CASE_FILES.map(shippedCase), inTheSun(), ...FINISHED.map(demoCase)]) {
    const { client } = quiltCase;
    const stored = { ...quiltCase, client: { ...client, intended_use: 'storage' as const } };
    const [before, after] = [quiltCase, stored].map((each) => decideQuick(each, context).answer);
    if (before === undefined || after === undefined) throw new Error('no answer');
    const whatif = printComparison(quiltCase.case, compareAnswers(before, after, []), {
      color: false,
      width: 80,
    });
    for (const [kind, text] of Object.entries({ ...(await textsOf(quiltCase)), whatif }))
      if (kind !== 'json') texts.push({ where: `${quiltCase.case}, ${kind}`, kind, text });
  }
}, 240_000);

describe('years to the next repair', () => {
  it('are never stated without what they rest on', () => {
    expect(texts.filter(({ text }) => isBare(text)).map(({ where }) => where)).toEqual([]);
  });

  it('are stated in all these places, so that the check above has something to read', () => {
    const kinds = new Set(texts.filter(({ text }) => states(text)).map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(
      ['care', 'change', 'decision', 'estimate', 'report', 'terminal', 'whatif', 'work'].sort(),
    );
  });

  it('would be caught without it, wherever they are stated', () => {
    const line = new RegExp(RESTS_ON, 'gi');
    for (const { where, text } of texts.filter((each) => states(each.text)))
      expect(isBare(flat(text).replace(line, '')), where).toBe(true);
    expect(FORECAST_NOTE).toMatch(RESTS_ON);
  });
});

describe('a repair that may not last two years', () => {
  // $2,180 and 45 hours for a year or so is the first thing a client has to know, before any reason for it.
  it.each([
    ['terminal', 'Because'],
    ['decision', 'Why'],
  ])('says so beside the advice: %s', (kind, reasons) => {
    const told = flat(texts.find(({ where }) => where === `${IN_THE_SUN}, ${kind}`)?.text ?? '');
    const warning = told.indexOf('it may need mending again within a year or so');
    expect(warning).toBeGreaterThan(told.indexOf(kind === 'terminal' ? 'Go ahead' : 'Our advice'));
    expect(told.slice(warning)).toContain(` ${reasons} `);
    expect(told.slice(told.indexOf(kind === 'terminal' ? 'Go ahead' : 'Our advice'), warning)).not.toContain(
      ` ${reasons} `,
    );
    expect(told.split('within a year or so').length, 'once').toBe(2);
  });
});

describe('papers for the client', () => {
  it('name kinds of source and institutions, and leave every address to the list', () => {
    const addresses = sourcesOf(shipped).flatMap(
      ({ source }) => source.match(/\b(?:[a-z0-9-]+\.)+(?:com|org|net|gov|edu|ca|uk|au)\b/g) ?? [],
    );
    expect(addresses.length).toBeGreaterThan(50);
    const papers = texts.filter(({ kind }) => kind !== 'terminal' && kind !== 'whatif');
    for (const address of new Set(addresses))
      expect(
        papers.filter(({ text }) => text.includes(address)).map(({ where }) => where),
        address,
      ).toEqual([]);
  });
});
