import { TOLD_DAMAGE, TOLD_EXTENT, type ToldDamage } from '../casebook/scales.ts';
import { answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Question, Section, Taken } from './question.ts';
import { matchChoice, saysNothing } from './typed.ts';

const PATH = ['client', 'damage'] as const;
const INTRO = ['What is wrong with it'];

const choicesOf = (names: Readonly<Record<string, string>>): Question['choices'] =>
  Object.entries(names).map(([value, label]) => ({ value, label }));

const KINDS = choicesOf(TOLD_DAMAGE);

const isKind = (value: unknown): value is ToldDamage =>
  typeof value === 'string' && Object.hasOwn(TOLD_DAMAGE, value);

/** Kinds of damage told so far. */
export const damageIn = (told: unknown): readonly ToldDamage[] =>
  Array.isArray(told) ? told.filter(isKind) : [];

/** `1, 3` or `torn and stains`: each part must be one of the kinds. */
const kindsIn = (raw: string): { kinds: string[] } | Extract<Taken, { flaw: unknown }> => {
  const alone = matchChoice(raw, KINDS);
  if ('value' in alone) return { kinds: [alone.value] };
  const kinds = new Set<string>();
  const parts = /^[\d\s,]+$/.test(raw) ? raw.split(/[\s,]+/) : raw.split(/,|\band\b|&|\+/i);
  for (const part of parts.filter((each) => each.trim() !== '')) {
    const match = matchChoice(part, KINDS);
    if ('flaw' in match) return match;
    kinds.add(match.value);
  }
  if (kinds.has('none') && kinds.size > 1) {
    const what = 'nothing that can be seen does not go with other damage';
    return { flaw: { code: 'not-an-option', what, cure: 'Give the damage alone, or 7 alone.' } };
  }
  return { kinds: [...kinds] };
};

/** What the client says is wrong with it, and how much: what to look for, before anybody has seen it. */
export const damageSection: Section = ({ answers }) => {
  const told = answerAt(answers, PATH);
  const kinds = damageIn(told);
  const question = plainQuestion(answers, {
    path: PATH,
    ask: 'What is wrong with it? Several at once: 1, 3',
    label: 'what is wrong with it',
    choices: KINDS,
    intro: INTRO,
    look: [
      'How to look: Take the words of the message and ask for what it leaves out: seams, cloth, edge, filling, stains.',
    ],
  });
  const whatIsWrong: Question = {
    ...question,
    ...(kinds.length === 0 ? {} : { now: kinds.map((kind) => TOLD_DAMAGE[kind]).join(', ') }),
    take: (raw) => {
      if (saysNothing(raw)) return { answers: withAnswer(answers, PATH, UNKNOWN) };
      const read = kindsIn(raw);
      return 'flaw' in read ? read : { answers: withAnswer(answers, PATH, read.kinds) };
    },
  };
  if (kinds.length === 0 || kinds.includes('none')) return [whatIsWrong];
  return [
    whatIsWrong,
    plainQuestion(answers, {
      path: ['client', 'damage_extent'],
      ask: 'How much of it is that, all together?',
      label: 'how much of it is damaged',
      choices: choicesOf(TOLD_EXTENT),
      intro: INTRO,
    }),
  ];
};
