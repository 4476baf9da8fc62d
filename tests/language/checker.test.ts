import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { PRESSING } from '../../src/documents/read-texts.ts';
import { slipsInSentence, slipsInWords } from './slips.ts';
import { UNWANTED, unwantedIn } from './words.ts';

/** Sentences a client must not read, planted to show that the checks can fail. */
const UNWANTED_SENTENCES: readonly (readonly [string, string])[] = [
  ['The repair is guaranteed for ten years.', 'guaranteed'],
  ['It is safe to wash it.', 'safe'],
  ['You only have to choose.', 'only'],
  ['Just tie it.', 'just'],
  ['We simply sew it.', 'simply'],
  ['Obviously it cannot be used.', 'obviously'],
  ['The match will be perfect.', 'perfect'],
  ['It always holds.', 'always'],
  ['The new seam will never open.', 'will never'],
  ['Such a seam never fails.', 'never fails'],
  ['It is thought that silk weakens.', 'it is thought that'],
  ['It was believed to be older.', 'it was believed to'],
  ['The dye may possibly run.', 'may possibly'],
  ['The dye could potentially run.', 'could potentially'],
  ['It would seem that it was washed.', 'it would seem'],
  ['This is the best way.', 'best'],
];

const SLIPS: readonly (readonly [string, string])[] = [
  ['The backing is guest_bed.', 'a name with underscores'],
  ['It stands under finding.loss here.', 'a path of names'],
  ['Grade F3 was found.', 'a code of the trade book'],
  ['It lasts undefined years.', 'a value of the machine'],
  ['It lasts NaN years.', 'a value of the machine'],
  ['The budget is null.', 'a value of the machine'],
  ['It says [object Object].', 'a value of the machine'],
  ['Of the top, {loss} is lost.', 'a place left unfilled'],
  ['Ties stand not known apart.', 'an unknown inside a measure'],
  ['We replace 1 units.', 'one of many'],
  ['It lasts 1 years.', 'one of many'],
  ['It makes 1 new holes.', 'one of many'],
  ['We replace 2 patch.', 'many of one'],
  ['It has 1,024 seam.', 'many of one'],
  ['It was  washed.', 'doubled spaces'],
  ['It was washed..', 'doubled or stray marks'],
  ['It was washed , then aired.', 'doubled or stray marks'],
  ['It was washed ().', 'doubled or stray marks'],
  ['It was was washed.', 'a doubled word'],
  ['It has a old back.', 'a for an'],
  ['it was washed.', 'no capital'],
  ['It was washed. then aired.', 'no capital'],
  ['It was washed', 'no end'],
];

const SOUND: readonly string[] = [
  'Ties would leave 14 in between fastenings; this batting is rated for 3 in.',
  'It makes 1 new hole and 21 old holes are used again.',
  'It lasts 0.1 years to 1 year.',
  'A unit in 1 of 10 places is one a person would use.',
  'Its smell was noted as "strong".',
  'Never wash it.',
  'It stands 8 1/2 in apart.',
  'Does everybody agree?',
  'Mould covers 576 in², more than the 0.3 square metres (465 square inches) at which an outbreak stops being small.',
];

describe('the checks of words', () => {
  it.each(UNWANTED_SENTENCES)('find in "%s" the word "%s"', (sentence, word) => {
    expect(unwantedIn(sentence).some((found) => found.startsWith(`"${word}" `))).toBe(true);
  });

  it.each(SLIPS)('find in "%s" %s', (sentence, slip) => {
    expect(slipsInSentence(sentence, 'inches').some((found) => found.startsWith(slip))).toBe(true);
  });

  it.each(SOUND)('find nothing in "%s"', (sentence) => {
    expect([...slipsInSentence(sentence, 'inches'), ...unwantedIn(sentence)]).toEqual([]);
  });

  it('find words inside other words to be other words', () => {
    expect(unwantedIn('Justice, unsafe, commonly, best-known and lifeboats.')).toEqual([]);
  });

  it('find measures of the other system, in either studio', () => {
    expect(slipsInWords('Ties stand 6 in apart.', 'metric')).toEqual([
      '6 in in a studio that measures in metric',
    ]);
    expect(slipsInWords('It weighs 3 lb.', 'metric')).toHaveLength(1);
    expect(slipsInWords('Some 25 holes in every inch.', 'metric')).toHaveLength(1);
    expect(slipsInWords('Ties stand 15.2 cm apart.', 'inches')).toHaveLength(1);
    expect(slipsInWords('Mould covers 0.3 m².', 'inches')).toHaveLength(1);
    expect(slipsInWords('Less than an eighth of an inch (3 mm) is left.', 'metric')).toEqual([]);
    expect(slipsInWords('There are 1,056 holes: 12 in its face.', 'metric')).toEqual([]);
  });

  it('measure ease: an invented sentence of an official comes out hard, one of ours plain', () => {
    const official =
      'Notwithstanding considerable organisational interdependencies, remediation necessitates multidisciplinary authorisation.';
    expect(readability.fleschReadingEase(official)).toBeLessThan(60);
    expect(
      readability.fleschReadingEase('Ties hold the layers. Each knot pulls on a few threads.'),
    ).toBeGreaterThan(60);
  });

  it('keep one list with the program, and say why of each word', () => {
    const patterns = UNWANTED.map(({ pattern }) => pattern);
    expect(patterns).toEqual(expect.arrayContaining([...PRESSING]));
    expect(UNWANTED.filter(({ why }) => why.length < 20)).toEqual([]);
  });
});
