import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import type { Path } from '../source/source.ts';
import { type Answers, ASIDE, answerAt, withAnswer } from './answers.ts';
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

/** What a part of a layout or of a count needs around it to be read at all. */
const FRAMES: readonly (readonly [RegExp, Answers])[] = [
  [/^quilt\.layout\./, { quilt: { layout: { kind: 'sashed', rows: 1, columns: 1 } } }],
  [/^survey\.counts\./, { survey: { counts: { of: 1_000_000 } } }],
];

/** What is wrong with an answer whatever else is said: it cannot be read, or lies outside what it can be. Pure. */
export const faultAlone = (
  question: Question,
  answers: Answers,
  vocabulary: Vocabulary,
): Problem | undefined => {
  const place = placeOf(question);
  if (place[0] === ASIDE || place[0] === 'history' || MAP_ROW.test(question.id)) return undefined;
  const frame = FRAMES.find(([at]) => at.test(question.id))?.[1] ?? {};
  return candidateOf(withAnswer(frame, place, answerAt(answers, place)), vocabulary).errors[0];
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
export const disagreementOf = (
  questions: readonly Question[],
  hearing: Hearing,
): Disagreement | undefined => {
  const [problem] = candidateOf(hearing.answers, hearing.vocabulary).errors;
  return problem === undefined ? undefined : { problem, parties: partiesTo(problem, questions, hearing) };
};
