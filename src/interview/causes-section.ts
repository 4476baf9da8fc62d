import type { ToldCause } from '../casebook/model.ts';
import { mapRows, placeName, readJoin, stateOf } from '../casebook/positions.ts';
import { CAUSES, type Cause, DAMAGED_STATES } from '../casebook/scales.ts';
import { suggest } from '../source/suggest.ts';
import { answerAt, isGroup, numberAt, textAt } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import { type Flaw, type InterviewSession, inStretch, type Section } from './question.ts';

const WORDS: Readonly<Record<Cause, string>> = {
  wear: 'worn through in use',
  washing: 'torn or worn out in a wash',
  light: 'rotted by light',
  accident: 'torn, cut or burnt once',
  animals: 'bitten or scratched',
  insects: 'eaten',
};

/** What did the damage, in one line, once it is known that there is any. */
export const causesSection: Section = ({ answers }) => {
  const told = answerAt(answers, ['survey', 'causes']);
  // What was told stays open to correction where the map has changed since.
  if (damagedIn(answers) === 0 && !Array.isArray(told)) return [];
  const question = plainQuestion(answers, {
    path: ['survey', 'causes'],
    ask: 'What did the damage? One word for all of it, or place by place.',
    label: 'what did the damage',
    example: 'wear, or B3 C4 accident, rest wear',
    look: [
      'Cloth that wore through has thin cloth round it; a tear, a cut or a burn has strong cloth right up to its edge. What an accident took says nothing of how long the rest will last.',
      ...CAUSES.map((cause) => `  ${cause}: ${WORDS[cause]}`),
    ],
    read: readCauses,
  });
  return inStretch('units', ['lost'], [{ ...question, ...(Array.isArray(told) ? { now: said(told) } : {}) }]);
};

const damagedIn = (answers: InterviewSession['answers']): number => {
  const counts = answerAt(answers, ['survey', 'counts']);
  const mapped = mapRows(textAt(answers, ['survey', 'units']) ?? '').flat();
  const damaged = mapped.filter((mark) => DAMAGED_STATES.has(stateOf(mark) ?? 'sound')).length;
  if (!isGroup(counts)) return damaged;
  return [...DAMAGED_STATES].reduce((sum, state) => sum + (numberAt(counts, [state]) ?? 0), damaged);
};

const isPlace = (word: string): boolean => readJoin(word) !== undefined || /^[a-z]{1,3}\d{1,4}$/i.test(word);

/** `B3 C4 accident, 2 washing, rest wear`: places, a number or nothing, and what it was. */
const readCauses = (raw: string): { readonly value: readonly ToldCause[] } | { readonly flaw: Flaw } => {
  const causes: ToldCause[] = [];
  for (const part of raw.split(/[,;]/).filter((each) => each.trim() !== '')) {
    const words = part.trim().split(/[\s:]+/);
    const named = words.filter(isPlace).map(placeName);
    const [number] = words.filter((word) => /^\d{1,6}$/.test(word)).map(Number);
    const [word = '', ...more] = words.filter(
      (each) => !isPlace(each) && !/^(\d{1,6}|all|the|rest|joins|seams)$/i.test(each),
    );
    const why = CAUSES.find((each) => each === word.toLowerCase());
    const unknown = /^(unknown|\?)$/i.test(word);
    if (more.length > 0 || (why === undefined && !unknown)) return { flaw: noCause(part.trim(), word) };
    causes.push({
      places:
        named.length > 0 ? named : words.some((each) => /^(joins|seams)$/i.test(each)) ? 'joins' : 'units',
      ...(named.length > 0 || number === undefined ? {} : { count: number }),
      ...(why === undefined ? {} : { why }),
    });
  }
  return { value: causes };
};

const noCause = (part: string, word: string): Flaw => {
  const near = suggest(word, CAUSES);
  return {
    code: 'not-an-option',
    what: `"${part}" does not say what did it`,
    cure: `Write it like B3 C4 accident, rest wear. Words for it: ${CAUSES.join(', ')}.`,
    ...(near === undefined ? {} : { didYouMean: near }),
  };
};

/** The same words again, for the list of what is already answered. */
const said = (causes: readonly ToldCause[]): string =>
  causes
    .map(({ places, count, why = 'unknown' }) => {
      const rest = [...(count === undefined ? [] : [count]), ...(places === 'joins' ? ['joins'] : [])];
      const which = typeof places === 'string' ? rest : places;
      return `${which.length === 0 ? 'rest' : which.join(' ')} ${why}`;
    })
    .join(', ');
