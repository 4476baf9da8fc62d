import { describe, expect, test } from 'vitest';
import type { Answers } from '../../../src/interview/answers.ts';
import { ENQUIRY, ENQUIRY_OPENING } from '../../../src/interview/enquiry.ts';
import { questionsOf } from '../../../src/interview/question.ts';
import { type Course, type Prompter, runQuestionLoop } from '../../../src/interview/question-loop.ts';
import { SURVEY, SURVEY_OPENING } from '../../../src/interview/survey.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

type Interview = typeof ENQUIRY;

/** Holds an interview in which `bearing` says what matters; gives the questions put, and those left when nothing did. */
const hold = async (
  interview: Interview,
  opening: number,
  script: Record<string, string>,
  bearing: Course['bearing'],
  goOn = false,
): Promise<{ asked: string[]; left: string[] }> => {
  const asked: string[] = [];
  let left: string[] = [];
  const prompter: Prompter = {
    tell: () => undefined,
    ask: async (question) => {
      asked.push(question.id);
      return { kind: 'answer', raw: script[question.id] ?? '' };
    },
  };
  await runQuestionLoop({
    interview,
    vocabulary,
    known: {},
    said: {},
    prompter,
    confirmed: async () => undefined,
    enough: async () => false,
    course: { opening, bearing },
    settled: async (open) => {
      left = open.map(({ id }) => id);
      return !goOn;
    },
  });
  return { asked, left };
};

const SIZE = { 'quilt.size.width': '60 in', 'quilt.size.height': '80 in' };

const openingOf = (interview: Interview, opening: number, answers: Answers = {}): string[] =>
  questionsOf(interview.slice(0, opening), { answers, vocabulary }).map(({ id }) => id);

describe('an interview that follows what matters', () => {
  test('asks all of safety, the size and the reference first, whatever bears on the answer', async () => {
    const { asked } = await hold(ENQUIRY, ENQUIRY_OPENING, SIZE, () => ['monetary_value']);
    const opening = openingOf(ENQUIRY, ENQUIRY_OPENING);
    expect(asked.slice(0, opening.length)).toEqual(opening);
    expect(asked[opening.length]).toBe('survey.findings.monetary_value');
  });

  test('then asks in the order of what bears most, and stops where nothing does', async () => {
    const wanted = ['wanted_years', 'intended_use', 'inscription'];
    const { asked, left } = await hold(ENQUIRY, ENQUIRY_OPENING, SIZE, (_, askable) =>
      wanted.filter((name) => askable.has(name)),
    );
    expect(asked.slice(openingOf(ENQUIRY, ENQUIRY_OPENING).length)).toEqual([
      'client.wanted_years',
      'client.intended_use',
      'survey.findings.inscription',
    ]);
    expect(left).toContain('client.budget');
  });

  test('goes on in its own order where the person wants to', async () => {
    const { asked, left } = await hold(ENQUIRY, ENQUIRY_OPENING, SIZE, () => [], true);
    const opening = openingOf(ENQUIRY, ENQUIRY_OPENING).length;
    expect(asked.slice(opening, opening + left.length)).toEqual(left);
  });

  test('goes through a stretch that was begun: no fabric is left half told', async () => {
    const script = { ...SIZE, 'survey.seen': 'in hand', 'survey.families': 'indigo, shirting' };
    const { asked } = await hold(SURVEY, SURVEY_OPENING, script, (_, askable) =>
      ['fabrics', 'lost'].filter((name) => askable.has(name)),
    );
    const at = asked.indexOf('survey.families');
    const stretch = asked.slice(at, asked.indexOf('quilt.layout.kind'));
    expect(stretch).toContain('survey.families.A.fragility');
    expect(stretch).toContain('survey.families.B.dye_bleed');
    expect(stretch.every((id) => id.startsWith('survey.families') || id === 'interview.families')).toBe(true);
  });

  test('comes to the lost units by way of the layout', async () => {
    const script = { ...SIZE, 'survey.seen': 'in hand' };
    const { asked } = await hold(SURVEY, SURVEY_OPENING, script, (_, askable) =>
      askable.has('lost') ? ['lost'] : [],
    );
    const opening = openingOf(SURVEY, SURVEY_OPENING, { survey: { seen: 'in hand' } }).length;
    expect(asked.slice(opening)).toEqual(['quilt.layout.kind', 'interview.units']);
  });

  test('asks the client what only the client knows, where that bears on the answer', async () => {
    const script = { ...SIZE, 'survey.seen': 'in hand', 'interview.client': 'yes' };
    const { asked } = await hold(SURVEY, SURVEY_OPENING, script, (_, askable) =>
      askable.has('wanted_years') ? ['wanted_years'] : [],
    );
    const opening = openingOf(SURVEY, SURVEY_OPENING, { survey: { seen: 'in hand' } }).length;
    expect(asked.slice(opening)).toEqual(['interview.client', 'client.wanted_years']);
  });
});
