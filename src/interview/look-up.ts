import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import type { Path } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { type Answers, ASIDE, answerAt, withAnswer } from './answers.ts';
import { type Flaw, type InterviewSession, pathOfId, type Question } from './question.ts';
import { validateAnswers } from './validate-answers.ts';

/** What was answered, numbered: what "list" shows and "change 3" means. Pure. */
const answeredOf = (questions: readonly Question[]): readonly Question[] =>
  questions.filter(({ answered }) => answered);

export const listOf = (questions: readonly Question[]): string[] => {
  const answered = answeredOf(questions);
  if (answered.length === 0) return ['Nothing has been answered yet.'];
  return [
    'Answered so far:',
    ...answered.map(
      ({ label, now }, index) => `  ${index + 1}  ${label}${now === undefined ? '' : `: ${now}`}`,
    ),
    'To correct one, type change and its number or name, such as change 1.',
  ];
};

const plain = (word: string): string =>
  word
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

const endOf = (id: string): string => id.slice(id.lastIndexOf('.') + 1);

const fabricName = (id: string): string => id.replace(/^survey\.families\./, '');

/** Names of a question, the most exact first: what a case file calls it, its finding, its label. */
const NAMES: readonly ((question: Question) => string)[] = [
  ({ id }) => id,
  ({ id }) => fabricName(id),
  ({ id }) => endOf(id),
  ({ label }) => label,
];

/** The one question meant by a number of the list, a finding's name or its label, in full or in part. Pure. */
export const questionMeant = (
  wanted: string,
  questions: readonly Question[],
): { readonly question: Question } | { readonly flaw: Flaw } => {
  const answered = answeredOf(questions);
  const numbered = /^\d+$/.test(wanted) ? answered[Number(wanted) - 1] : undefined;
  if (numbered !== undefined) return { question: numbered };
  const word = plain(wanted);
  const whole = NAMES.map((name) => questions.filter((each) => plain(name(each)) === word));
  const part = questions.filter((each) => plain(`${each.label} ${each.id}`).includes(word));
  const fitting = whole.find((some) => some.length > 0) ?? part;
  const [only] = fitting;
  if (only !== undefined && fitting.length === 1) return { question: only };
  const cure = 'Type list to see what was answered, each with its number.';
  if (only !== undefined) {
    const some = fitting.slice(0, 4).map(({ label }) => label);
    const what = `"${wanted}" could mean ${some.join('; ')}`;
    return { flaw: { code: 'unknown-finding', what, cure } };
  }
  const didYouMean = suggest(
    wanted,
    questions.flatMap(({ id, label }) => [endOf(id), label]),
  );
  return {
    flaw: {
      code: 'unknown-finding',
      what: `no question here is called "${wanted}"`,
      cure,
      ...(didYouMean === undefined ? {} : { didYouMean }),
    },
  };
};

/** A question put again: what was said stays unless something else is typed. */
export const putAgain = (question: Question, answers: Answers): Question =>
  question.now === undefined
    ? question
    : {
        ...question,
        ask: `${question.ask} (now: ${question.now}; Enter keeps it)`,
        take: (raw) => (raw.trim() === '' ? (question.keep?.() ?? { answers }) : question.take(raw)),
      };

/**
 * A question asked before, by telephone or from pictures, with the answer it had then. `anew`: the old answer is only
 * shown, and somebody with the quilt in hand must give it again.
 */
export const shownOld = (question: Question, old: unknown, anew = false): Question => {
  const written = typeof old === 'boolean' ? (old ? 'yes' : 'no') : old;
  if (typeof written !== 'string' && typeof written !== 'number') return question;
  const said = question.choices.find(({ value }) => value === written)?.label ?? String(written).trim();
  if (anew) return { ...question, ask: `${question.ask} (from pictures: ${said})` };
  return {
    ...question,
    ask: `${question.ask} (told before: ${said}; Enter keeps it)`,
    take: (raw) => question.take(raw.trim() === '' ? String(written) : raw),
  };
};

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
  return validateAnswers(withAnswer(frame, place, answerAt(answers, place)), vocabulary).errors[0];
};

/** All rows of the map a question belongs to, or the question alone. */
export const wholeOf = (question: Question, questions: readonly Question[]): readonly Question[] => {
  const [, map] = MAP_ROW.exec(question.id) ?? [];
  return map === undefined ? [question] : questions.filter(({ id }) => MAP_ROW.exec(id)?.[1] === map);
};

/** Which answers have a part in a fault: without any one of them it would be gone. */
const partiesTo = (
  problem: Problem,
  questions: readonly Question[],
  session: InterviewSession,
): Question[] => {
  const tried = new Set<string>();
  return questions.filter((question) => {
    const place = placeOf(question);
    const name = place.join('.');
    if (!question.answered || place[0] === ASIDE || tried.has(name)) return false;
    tried.add(name);
    const without = withAnswer(session.answers, place, undefined);
    return !validateAnswers(without, session.vocabulary).errors.some(({ code }) => code === problem.code);
  });
};

/** The first thing in which these answers disagree, if any. Pure. */
export const disagreementOf = (
  questions: readonly Question[],
  session: InterviewSession,
): Disagreement | undefined => {
  const [problem] = validateAnswers(session.answers, session.vocabulary).errors;
  return problem === undefined ? undefined : { problem, parties: partiesTo(problem, questions, session) };
};
