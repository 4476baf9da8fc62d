import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import type { Path } from '../source/source.ts';
import type { Answers } from './answers.ts';

export type Flaw = Pick<Problem, 'code' | 'what' | 'why' | 'cure' | 'didYouMean'>;

/** What becomes of an answer: the answers with it in, what is wrong with it, or a wish to do an earlier question again. */
export type Taken = { readonly answers: Answers } | { readonly flaw: Flaw } | { readonly again: string };

/** One question, as plain data and one pure function; how it looks on a screen is the prompt's business. */
export interface Question {
  /** The path of its answer, dots between: what `--set` calls it. */
  readonly id: string;
  readonly ask: string;
  /** Short, for the list of what is already answered. */
  readonly label: string;
  /** To choose from; empty where the answer is typed. */
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  /** How a typed answer may look, such as `4 1/2 in`. */
  readonly example?: string;
  /** How to look and what signs to look for, a paragraph an entry. */
  readonly look: readonly string[];
  /** Shown once before the first question that carries it: a heading, a legend. */
  readonly intro?: readonly string[];
  /** Cannot be passed over. */
  readonly required: boolean;
  readonly answered: boolean;
  /** The answer it has, in words; absent where it has none. */
  readonly now?: string;
  /** What it bears on, by the names `QuestionRanker` knows: its finding, what lies behind it, what is counted. */
  readonly bearsOn?: readonly string[];
  /** The stretch it belongs to, gone through in order once begun: the layout, the fabrics, the map. */
  readonly stretch?: string;
  /** Takes the answer it has once more, where it must be held to what has changed around it. */
  readonly keep?: () => Taken;
  take(raw: string): Taken;
}

/** What sections build their questions from. */
export interface InterviewSession {
  readonly answers: Answers;
  readonly vocabulary: Vocabulary;
  /** What a bare number means; inches where the studio says nothing else. */
  readonly units?: MeasureSystem;
  /** What "24 December" and "in six weeks" are counted from. */
  readonly today?: string;
}

/** A stretch of an interview: the questions that make sense after the answers so far, answered ones included. */
export type Section = (session: InterviewSession) => readonly Question[];

export const idOf = (path: Path): string => path.join('.');

export const pathOfId = (id: string): Path =>
  id.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));

/** All questions of an interview that still make sense, in its order; where two sections ask the same, the first does. */
export const questionsOf = (
  interview: readonly Section[],
  session: InterviewSession,
): readonly Question[] => {
  const byId = new Map<string, Question>();
  for (const section of interview)
    for (const question of section(session)) if (!byId.has(question.id)) byId.set(question.id, question);
  return [...byId.values()];
};

/** The next question to put, or nothing where all that make sense are answered. Pure. */
export const nextQuestion = (
  interview: readonly Section[],
  session: InterviewSession,
): Question | undefined => questionsOf(interview, session).find(({ answered }) => !answered);

/** Marks the questions of a stretch, all of which bear on the same where they do not say otherwise. */
export const inStretch = (
  stretch: string,
  bearsOn: readonly string[],
  questions: readonly Question[],
): Question[] => questions.map((question) => ({ bearsOn, ...question, stretch }));

/** What an interview cannot end without and does not know yet. */
export const missingOf = (interview: readonly Section[], session: InterviewSession): readonly Question[] =>
  questionsOf(interview, session).filter(({ required, answered }) => required && !answered);
