import type { Problem } from '../problems/problem.ts';
import type { Path } from '../source/source.ts';
import { ASIDE, withAnswer } from './answers.ts';
import { candidateOf } from './candidate.ts';
import { type Hearing, pathOfId, type Question } from './question.ts';

/** Answers that do not go together, and why. */
export interface Disagreement {
  readonly problem: Problem;
  /** Each of them, corrected alone, would mend it. A map stands here by its first row. */
  readonly parties: readonly Question[];
}

const MAP_ROW = /^survey\.(units|family_map)\.[A-Z]+$/;

/** Where an answer stands: the rows of a map stand together in one text. */
const placeOf = ({ id }: Question): Path => {
  const [, map] = MAP_ROW.exec(id) ?? [];
  return map === undefined ? pathOfId(id) : ['survey', map];
};

/** All rows of the map a question belongs to, or the question alone. */
export const wholeOf = (question: Question, questions: readonly Question[]): readonly Question[] => {
  const [, map] = MAP_ROW.exec(question.id) ?? [];
  return map === undefined ? [question] : questions.filter(({ id }) => MAP_ROW.exec(id)?.[1] === map);
};

/** Which answers have a part in a fault: without any one of them it would be gone. */
const partiesTo = (problem: Problem, questions: readonly Question[], hearing: Hearing): Question[] => {
  const tried = new Set<string>();
  return questions.filter((question) => {
    const place = placeOf(question);
    const name = place.join('.');
    if (!question.answered || place[0] === ASIDE || tried.has(name)) return false;
    tried.add(name);
    const without = withAnswer(hearing.answers, place, undefined);
    return !candidateOf(without, hearing.vocabulary).errors.some(({ code }) => code === problem.code);
  });
};

/** The first thing in which these answers disagree, if any. Pure. */
export const disagreementOf = (questions: readonly Question[], hearing: Hearing): Disagreement | undefined => {
  const [problem] = candidateOf(hearing.answers, hearing.vocabulary).errors;
  return problem === undefined ? undefined : { problem, parties: partiesTo(problem, questions, hearing) };
};
