import { describe, expect, test } from 'vitest';
import { type Answers, answerAt, UNKNOWN } from '../../../src/interview/answers.ts';
import { ENQUIRY } from '../../../src/interview/enquiry.ts';
import { pathOfId, type Question, questionsOf, type Section } from '../../../src/interview/question.ts';
import { faultOf } from '../../../src/interview/question-loop.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

/** Answers that bring out as many questions as there are: every branch of both interviews. */
const TOLD: readonly (readonly [string, readonly Section[], Answers])[] = [
  ['an enquiry', ENQUIRY, {}],
  ['an enquiry with a history', ENQUIRY, { history: [{ use: 'storage' }] }],
  ['a survey', SURVEY, { survey: { seen: 'in hand' } }],
  ['a survey by photos', SURVEY, { survey: { seen: 'photos' } }],
  [
    'a survey with a map',
    SURVEY,
    {
      quilt: { size: { width: '40 in', height: '30 in' }, layout: { kind: 'sashed', rows: 3, columns: 4 } },
      survey: {
        seen: 'in hand',
        families: { A: { name: 'indigo' }, B: { name: 'silk', fibre: 'silk' } },
        joins: { inspected: 17, open: 3 },
      },
      interview: { units: 'map', families: 'map', client: 'yes' },
    },
  ],
  [
    'a survey by a list of squares',
    SURVEY,
    {
      quilt: { layout: { kind: 'edge to edge', rows: 3, columns: 4 } },
      survey: { seen: 'in hand' },
      interview: { units: 'list' },
    },
  ],
  [
    'a survey by counts',
    SURVEY,
    {
      survey: { seen: 'in hand', families: { A: { name: 'indigo' }, B: { name: 'shirting' } } },
      interview: { units: 'counts', families: 'share' },
    },
  ],
];

/** What is anybody's own words: nothing can be held against it. */
const OWN_WORDS = new Set(['quilt.title', 'survey.families', 'client.ref', 'survey.by']);

const NONSENSE = [
  '7 lb',
  'trace of it',
  'nope',
  'no, I think not',
  'yes and no',
  '$%&',
  '99999999',
  '-3',
  'xyzzy',
];
const NOT_KNOWN = ['no idea', 'not sure', "don't know", 'I don’t know', 'unknown', ' No Idea. '];

const everywhere = (): {
  from: string;
  question: Question;
  answers: Answers;
  sections: readonly Section[];
}[] =>
  TOLD.flatMap(([from, sections, answers]) =>
    questionsOf(sections, { answers, vocabulary }).map((question) => ({ from, question, answers, sections })),
  );

const writtenAt = (answers: Answers, { id }: Question): unknown => answerAt(answers, pathOfId(id));

describe('what is typed must match', () => {
  test.each(NONSENSE)('"%s" is never taken as anything it does not say', (raw) => {
    for (const { from, question, answers, sections } of everywhere()) {
      if (OWN_WORDS.has(question.id)) continue;
      const flaw = faultOf(question, raw, { answers, vocabulary }, sections);
      const taken = question.take(raw);
      if (flaw !== undefined || !('answers' in taken)) continue;
      // The one thing left: a measure that can be read. It must say what was typed, and no choice can.
      expect(question.choices, `${from}: ${question.id} took "${raw}"`).toEqual([]);
      expect(String(writtenAt(taken.answers, question)), question.id).toContain(raw);
      expect(raw, question.id).toMatch(/^(7 lb|99999999)$/);
    }
  });

  test.each(NOT_KNOWN)('"%s" is written down as not known, and never as no', (raw) => {
    for (const { from, question, answers, sections } of everywhere()) {
      if (
        OWN_WORDS.has(question.id) ||
        /^survey\.(units|family_map)\.|^history|counts\.states/.test(question.id)
      )
        continue;
      const taken = question.take(raw);
      if (question.required) {
        expect(faultOf(question, raw, { answers, vocabulary }, sections), question.id).toBeDefined();
        continue;
      }
      if (!('answers' in taken)) throw new Error(`${from}: ${question.id} does not take "${raw}"`);
      expect(writtenAt(taken.answers, question), `${from}: ${question.id}`).toBe(UNKNOWN);
    }
  });

  test('every choice is found by its number, its name and its label', () => {
    for (const { question } of everywhere()) {
      question.choices.forEach(({ value, label }, index) => {
        for (const raw of [String(index + 1), value, label, label.toUpperCase()]) {
          const taken = question.take(raw);
          expect('answers' in taken, `${question.id}: ${raw}`).toBe(true);
          const written = 'answers' in taken ? writtenAt(taken.answers, question) : undefined;
          // "That is all" of a history is written nowhere.
          if (value !== 'no more') expect(String(written), `${question.id}: ${raw}`).toBe(value);
        }
      });
    }
  });

  test('what could be two choices is asked for again, naming both', () => {
    const answers: Answers = { survey: { seen: 'in hand', families: { A: { name: 'indigo' } } } };
    const dye = questionsOf(SURVEY, { answers, vocabulary }).find(
      ({ id }) => id === 'survey.families.A.dye_bleed',
    );
    const taken = dye?.take('trace');
    expect(taken).toHaveProperty('flaw.code', 'not-an-option');
    expect(JSON.stringify(taken)).toMatch(/could mean .* or /);
  });
});

describe('measures as people say them', () => {
  const value = (id: string, raw: string, units?: 'metric'): unknown => {
    const session = { answers: { survey: { seen: 'in hand' } }, vocabulary, ...(units ? { units } : {}) };
    const question = [...questionsOf(SURVEY, session), ...questionsOf(ENQUIRY, session)].find(
      (each) => each.id === id,
    );
    const taken = question?.take(raw);
    return taken !== undefined && 'answers' in taken ? answerAt(taken.answers, pathOfId(id)) : taken;
  };

  test('a bare number takes the measure of the studio', () => {
    expect(value('quilt.size.width', '72')).toBe('72 in');
    expect(value('quilt.size.width', '183', 'metric')).toBe('183 cm');
    expect(value('quilt.size.width', '6 ft', 'metric')).toBe('6 ft');
    expect(value('quilt.joining.gap', '4 1/2')).toBe('4 1/2 in');
    expect(value('quilt.joining.gap', '4½')).toBe('4½ in');
    expect(value('quilt.weight', 'about 3')).toBe('3 lb');
  });

  test('shares come as percentages, parts and words', () => {
    expect(value('quilt.backing.damaged', '5')).toBe('5 %');
    // One is one per cent here: a case file's 1 would be all of it.
    expect(value('quilt.backing.damaged', '1')).toBe('1 %');
    expect(value('quilt.backing.damaged', '1/4')).toBe('25 %');
    expect(value('quilt.backing.damaged', 'half')).toBe('50 %');
    expect(value('quilt.backing.damaged', 'none')).toBe('0 %');
    expect(value('quilt.backing.damaged', '0.05')).toBe('0.05');
  });

  test('none of an area is no area', () => {
    expect(value('survey.findings.mould_area', 'none')).toBe('0 in2');
    expect(value('survey.findings.mould_area', 'none', 'metric')).toBe('0 cm2');
    expect(value('survey.findings.mould_area', 'no idea')).toBe(UNKNOWN);
  });
});

describe('a deadline as people say it', () => {
  const told = (raw: string, weeks?: number): Answers | string => {
    const answers: Answers = weeks === undefined ? {} : { survey: { findings: { deadline_weeks: weeks } } };
    const session = { answers, vocabulary, today: '2026-11-29' };
    const question = questionsOf(ENQUIRY, session).find(({ id }) => id === 'survey.findings.deadline');
    const taken = question?.take(raw);
    if (taken === undefined || 'again' in taken) throw new Error('no such question');
    return 'flaw' in taken ? taken.flaw.what : taken.answers;
  };
  const day = (raw: string): unknown => answerAt(told(raw), pathOfId('survey.findings.deadline'));

  test.each([
    ['by 24 December', '2026-12-24'],
    ['Dec 24, 2026', '2026-12-24'],
    ['the 24th of December', '2026-12-24'],
    ['2026-12-24', '2026-12-24'],
    // The next one that comes.
    ['3 March', '2027-03-03'],
    ['in 6 weeks', '2027-01-10'],
    ['10 days', '2026-12-09'],
  ])('"%s" is %s', (raw, date) => {
    expect(day(raw)).toBe(date);
  });

  test('no deadline is no date', () => {
    expect(day('none')).toBe(UNKNOWN);
    expect(day('no')).toBe(UNKNOWN);
  });

  test.each(['8', 'Christmas', '12/11/2026', '31 February', '2026-11-01'])(
    '"%s" is asked for again',
    (raw) => {
      expect(told(raw)).toMatch(/cannot be read as a day|has passed already/);
    },
  );

  test('a date takes the place of weeks that were written down before', () => {
    expect(told('24 December', 8)).toEqual({
      survey: { findings: { deadline_weeks: UNKNOWN, deadline: '2026-12-24' } },
    });
  });
});
