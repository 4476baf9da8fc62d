import { suggest } from '../source/suggest.ts';
import type { Answers } from './answers.ts';
import type { Flaw, Question } from './question.ts';

/** What was answered, numbered: what "list" shows and "change 3" means. Pure. */
export const answeredOf = (questions: readonly Question[]): readonly Question[] =>
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
