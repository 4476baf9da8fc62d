import type { FindingDef } from '../findings/vocabulary.ts';
import { answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Hearing, Question } from './question.ts';
import { typedDay } from './typed-measure.ts';

const DAY = ['survey', 'findings', 'deadline'] as const;
const WEEKS = ['survey', 'findings', 'deadline_weeks'] as const;

/**
 * Asks for the day in place of the weeks of the vocabulary: weeks go stale from the day they are written down. Weeks
 * that are on file count as an answer until a day takes their place.
 */
export const deadlineQuestion = (
  def: FindingDef,
  { answers, today }: Hearing,
  intro: readonly string[],
): Question => {
  const weeks = answerAt(answers, WEEKS);
  const question = plainQuestion(answers, {
    path: DAY,
    ask: 'By which day must it be ready, if there is one?',
    label: 'the day it must be ready',
    example: '24 December, or in 6 weeks',
    look: ['How to look: Ask for the day it must be in the client’s hands, and what it is needed for.'],
    intro,
    read: (raw) => (/^no(ne)?$/i.test(raw.trim()) ? { value: UNKNOWN } : typedDay(raw, today)),
  });
  return {
    ...question,
    bearsOn: [def.id],
    answered: question.answered || weeks !== undefined,
    ...(question.now !== undefined || weeks === undefined
      ? {}
      : { now: `in ${String(weeks)} weeks, when it was asked` }),
    take: (raw) => {
      const taken = question.take(raw);
      if (!('answers' in taken) || weeks === undefined) return taken;
      return { answers: withAnswer(taken.answers, WEEKS, UNKNOWN) };
    },
  };
};
