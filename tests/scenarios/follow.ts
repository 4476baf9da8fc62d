import { type Answers, mergedAnswers } from '../../src/cli/ask/answers.ts';
import { nextQuestion, type Question, type Section } from '../../src/cli/ask/question.ts';
import { vocabulary } from '../findings/vocabulary-fixture.ts';
import type { Session } from './session.ts';

/** Answers by question id, as a case file would hold them; what is not named is passed over. */
export type Script = Readonly<Record<string, string>>;

const keysFor = (question: Question, raw: string): string =>
  question.choices.find(({ value }) => value === raw)?.label ?? raw;

/**
 * Goes through an interview in a terminal beside the pure state machine: each question the machine comes to must be
 * the one on the screen. Stops before the question called `until`, or at the end. Gives the answers.
 */
export async function follow(
  session: Session,
  interview: readonly Section[],
  script: Script,
  { from = {}, until }: { from?: Answers; until?: string } = {},
): Promise<Answers> {
  let answers = mergedAnswers({}, from);
  for (;;) {
    const question = nextQuestion(interview, { answers, vocabulary });
    if (question === undefined || question.id === until) return answers;
    const raw = script[question.id] ?? '';
    await session.answer(question.ask, keysFor(question, raw));
    const taken = question.take(raw);
    if (!('answers' in taken)) throw new Error(`${question.id} does not take "${raw}"`);
    answers = taken.answers;
  }
}
