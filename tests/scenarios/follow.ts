import { contextOf } from '../../src/decision/context.ts';
import { QuestionRanker } from '../../src/decision/questions/next-question.ts';
import { type Answers, mergedAnswers } from '../../src/interview/answers.ts';
import { nextQuestion, type Question, type Section } from '../../src/interview/question.ts';
import { nextThatMatters, openQuestions } from '../../src/interview/question-loop.ts';
import { validateAnswers } from '../../src/interview/validate-answers.ts';
import { practice, shipped } from '../decision/shipped.ts';
import { vocabulary } from '../findings/vocabulary-fixture.ts';
import type { Session } from './session.ts';

/** Answers by question id, as a case file would hold them; what is not named is passed over. */
export type Script = Readonly<Record<string, string>>;

const keysFor = (question: Question, raw: string): string =>
  question.choices.find(({ value }) => value === raw)?.label ?? raw;

export interface Following {
  readonly from?: Answers;
  /** Stops before this question. */
  readonly until?: string;
  /** How many sections are asked in full before what matters decides; all of them where absent. */
  readonly opening?: number;
  /** The stretch of questions that was begun before. */
  readonly begun?: string;
  /** What to reply where nothing still open changes the answer. */
  readonly settled?: 'stop' | 'go on';
}

/**
 * Goes through an interview in a terminal beside the pure state machine: each question the machine comes to must be
 * the one on the screen. Stops before the question called `until`, or at the end. Gives the answers.
 */
export async function follow(
  session: Session,
  interview: readonly Section[],
  script: Script,
  { from = {}, until, opening, begun, settled = 'go on' }: Following = {},
): Promise<Answers> {
  let answers = mergedAnswers({}, from);
  let inOrder = opening === undefined;
  let stretch = begun;
  const bearings = new QuestionRanker(
    contextOf({ knowledge: shipped, practice }, new Date().toISOString().slice(0, 10)),
  );
  const bearing = (now: Answers, askable: ReadonlySet<string>): readonly string[] => {
    const { case: quiltCase } = validateAnswers(now, vocabulary);
    return quiltCase === undefined ? [] : bearings.on(quiltCase, askable);
  };
  for (;;) {
    const hearing = { answers, vocabulary };
    const course = {
      opening: opening ?? 0,
      bearing: (_: unknown, askable: ReadonlySet<string>) => bearing(answers, askable),
    };
    const question = inOrder
      ? nextQuestion(interview, hearing)
      : nextThatMatters(interview, hearing, course, stretch);
    if (question === undefined && !inOrder && openQuestions(interview, hearing).length > 0) {
      await session.see('Nothing still open here changes the answer');
      await session.answer('Stop here?', settled === 'stop' ? 'yes' : 'no');
      if (settled === 'stop') return answers;
      inOrder = true;
      continue;
    }
    if (question === undefined || question.id === until) return answers;
    const raw = script[question.id] ?? '';
    await session.answer(question.ask, keysFor(question, raw));
    const taken = question.take(raw);
    if (!('answers' in taken)) throw new Error(`${question.id} does not take "${raw}"`);
    answers = taken.answers;
    stretch = question.stretch;
  }
}
