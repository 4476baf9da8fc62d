import { describe, expect, it } from 'vitest';
import { type Answers, answerAt } from '../../../src/interview/answers.ts';
import { causesSection } from '../../../src/interview/causes-section.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

const damaged: Answers = { survey: { units: '. x h\n. . w\n' } };
const ask = (answers: Answers) => causesSection({ answers, vocabulary });
const typed = (raw: string): unknown => {
  const taken = ask(damaged)[0]?.take(raw);
  if (taken === undefined || 'again' in taken) throw new Error('no answer');
  return 'flaw' in taken ? taken.flaw : answerAt(taken.answers, ['survey', 'causes']);
};

describe('the question of what did the damage', () => {
  it('is put only where something is damaged, on a map or by counts', () => {
    expect(ask(damaged)).toHaveLength(1);
    expect(ask({ survey: { counts: { of: 9, hole: 1 } } })).toHaveLength(1);
    // what is worn is whole
    expect(ask({ survey: { units: '. w e\n' } })).toEqual([]);
    expect(ask({ survey: { counts: { of: 9, worn: 4 } } })).toEqual([]);
    expect(ask({})).toEqual([]);
    // told once, it can be taken back though the map says otherwise by now
    expect(ask({ survey: { units: '. .\n', causes: [{ places: ['A1'], why: 'wear' }] } })).toHaveLength(1);
  });

  it('takes one word for all of it, or places, numbers and the rest', () => {
    expect(typed('wear')).toEqual([{ places: 'units', why: 'wear' }]);
    expect(typed('all Washing')).toEqual([{ places: 'units', why: 'washing' }]);
    expect(typed('a2 A3: animals, rest wear')).toEqual([
      { places: ['A2', 'A3'], why: 'animals' },
      { places: 'units', why: 'wear' },
    ]);
    expect(typed('1 accident; ? ')).toEqual([
      { places: 'units', count: 1, why: 'accident' },
      { places: 'units' },
    ]);
    expect(typed('not known')).toBe('unknown');
  });

  it('asks again where a part names no cause, and offers the word it is near', () => {
    expect(typed('A2 acident')).toMatchObject({ code: 'not-an-option', didYouMean: 'accident' });
    expect(typed('A2, A3 wear')).toMatchObject({ what: '"A2" does not say what did it' });
    expect(typed('the dog did it')).toMatchObject({ code: 'not-an-option' });
  });

  it('says an answer as it could be typed again', () => {
    const first = ask(damaged)[0]?.take('A2 accident, 1 wear, all seams washing, rest light');
    const again = first !== undefined && 'answers' in first ? ask(first.answers)[0] : undefined;
    expect(again).toMatchObject({ answered: true, now: 'A2 accident, 1 wear, joins washing, rest light' });
  });
});
