import { type Hearing, type Question, questionsOf, type Section } from './question.ts';

/** An interview in which what is asked next is what bears most on the answer. */
export interface Course {
  /** How many of its sections are asked in full before that: safety, and what nothing can be reckoned without. */
  readonly opening: number;
  /** Of what can still be asked, what bears on the answer, the most telling first. */
  bearing(hearing: Hearing, askable: ReadonlySet<string>): readonly string[];
}

/**
 * The next question of an interview that follows what matters: the opening in its order, then the rest of the stretch
 * that was begun (`stretch`), then whatever bears most on the answer. Undefined where nothing does.
 */
export function nextThatMatters(
  interview: readonly Section[],
  hearing: Hearing,
  course: Course,
  stretch: string | undefined,
): Question | undefined {
  const opening = new Set(questionsOf(interview.slice(0, course.opening), hearing).map(({ id }) => id));
  const open = openQuestions(interview, hearing);
  const first =
    open.find(({ id }) => opening.has(id)) ??
    open.find((question) => stretch !== undefined && question.stretch === stretch);
  if (first !== undefined || open.length === 0) return first;
  const askable = new Set(open.flatMap(({ bearsOn = [] }) => bearsOn));
  for (const name of course.bearing(hearing, askable)) {
    const question = open.find(({ bearsOn }) => bearsOn?.includes(name));
    if (question !== undefined) return question;
  }
  return undefined;
}

export const openQuestions = (interview: readonly Section[], hearing: Hearing): readonly Question[] =>
  questionsOf(interview, hearing).filter(({ answered }) => !answered);
