import { TOLD_DAMAGE, TOLD_EXTENT, type ToldDamage } from '../casebook/scales.ts';
import type { FindingDef } from '../findings/vocabulary.ts';
import { ASIDE, answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { findingsSection } from './finding-question.ts';
import { clientSection, quiltSection } from './layout-section.ts';
import { plainQuestion } from './plain-question.ts';
import {
  type Flaw,
  type InterviewSession,
  inStretch,
  type Question,
  type Section,
  type Taken,
} from './question.ts';
import { matchChoice, saysNothing } from './typed.ts';

/** Groups of the vocabulary that a first message with photos can answer; any other finding a client can know is asked too. */
const FIRST_MESSAGE: ReadonlySet<string> = new Set(['safety', 'wishes', 'worth']);

const canTell = (def: FindingDef): boolean =>
  def.who === 'client' || (def.who === 'photos' && FIRST_MESSAGE.has(def.group));

const inGroup = (group: string) => (def: FindingDef) => def.group === group && canTell(def);

/** Sections asked in full whatever the answer: what is wrong, safety, the size and whose it is. */
export const ENQUIRY_OPENING = 4;

const NO_MORE = 'no more';

/** How it was used over the years, one stretch after another: what its wear is reckoned from. */
const historySection: Section = (session) => {
  const { answers } = session;
  const told = answerAt(answers, ['history']);
  const spells = Array.isArray(told) ? told.length : 0;
  const done = answerAt(answers, [ASIDE, 'history']) !== undefined;
  const asked = Array.from({ length: spells }, (_, index) => spellQuestions(session, index)).flat();
  // A history that is there already was told by somebody; it is not asked for again.
  const complete = spells > 0 && answerAt(answers, [ASIDE, 'history-asked']) === undefined;
  return inStretch('history', [], done || complete ? asked : [...asked, useQuestion(session, spells)]);
};

const useQuestion = (session: InterviewSession, index: number): Question => {
  const { answers, vocabulary } = session;
  const path = ['history', index, 'use'] as const;
  const uses = (vocabulary.findings.get('intended_use')?.options ?? [])
    .filter(({ value }) => value !== 'infant_sleep')
    .map(({ value, label }) => ({ value, label }));
  const question = plainQuestion(answers, {
    path,
    ask: index === 0 ? 'How was it used at first?' : 'And after that?',
    label: `use ${index + 1}`,
    choices: [...uses, { value: NO_MORE, label: index === 0 ? 'skip its history' : 'that is all' }],
    intro: ['Its life so far, from the beginning'],
  });
  return {
    ...question,
    take: (raw) => {
      const taken = question.take(raw);
      if (!('answers' in taken)) return taken;
      if ([NO_MORE, UNKNOWN].includes(String(answerAt(taken.answers, path))))
        return { answers: withAnswer(answers, [ASIDE, 'history'], 'told') };
      return { answers: withAnswer(taken.answers, [ASIDE, 'history-asked'], 'yes') };
    },
  };
};

/** Years as people say them: `15`, `about 15 years`. */
const years = (raw: string): { value: unknown } | { flaw: Flaw } => {
  const [, count] = /^(?:about\s+)?(\d{1,3}(?:\.\d+)?)(?:\s*years?)?$/i.exec(raw.trim()) ?? [];
  if (count !== undefined) return { value: Number(count) };
  const what = `years of use wants a number of years, not "${raw.trim()}"`;
  return { flaw: { code: 'wrong-kind', what, cure: 'Write it in figures, such as 15; half a year is 0.5.' } };
};

const spellQuestions = (session: InterviewSession, index: number): Question[] => {
  const { answers } = session;
  const at = (name: string) => ['history', index, name] as const;
  const intro = ['Its life so far, from the beginning'];
  return [
    useQuestion(session, index),
    plainQuestion(answers, {
      path: at('years'),
      ask: 'For how many years, about?',
      label: `years of use ${index + 1}`,
      example: '15',
      intro,
      read: years,
    }),
    plainQuestion(answers, {
      path: at('washing'),
      ask: 'How was it washed then?',
      label: `washing in use ${index + 1}`,
      choices: [
        { value: 'none', label: 'not at all' },
        { value: 'hand', label: 'by hand' },
        { value: 'machine', label: 'by machine' },
      ],
      intro,
    }),
  ];
};

const DAMAGE = ['client', 'damage'] as const;
const WHAT_IS_WRONG = ['What is wrong with it'];

const choicesOf = (names: Readonly<Record<string, string>>): Question['choices'] =>
  Object.entries(names).map(([value, label]) => ({ value, label }));

const KINDS = choicesOf(TOLD_DAMAGE);

const isKind = (value: unknown): value is ToldDamage =>
  typeof value === 'string' && Object.hasOwn(TOLD_DAMAGE, value);

/** Kinds of damage told so far. */
const damageIn = (told: unknown): readonly ToldDamage[] => (Array.isArray(told) ? told.filter(isKind) : []);

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
const damageSection: Section = ({ answers }) => {
  const told = answerAt(answers, DAMAGE);
  const kinds = damageIn(told);
  const question = plainQuestion(answers, {
    path: DAMAGE,
    ask: 'What is wrong with it? Several at once: 1, 3',
    label: 'what is wrong with it',
    choices: KINDS,
    intro: WHAT_IS_WRONG,
    look: [
      'How to look: Take the words of the message and ask for what it leaves out: seams, cloth, edge, filling, stains.',
    ],
  });
  const whatIsWrong: Question = {
    ...question,
    ...(kinds.length === 0 ? {} : { now: kinds.map((kind) => TOLD_DAMAGE[kind]).join(', ') }),
    take: (raw) => {
      if (saysNothing(raw)) return { answers: withAnswer(answers, DAMAGE, UNKNOWN) };
      const read = kindsIn(raw);
      return 'flaw' in read ? read : { answers: withAnswer(answers, DAMAGE, read.kinds) };
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
      intro: WHAT_IS_WRONG,
    }),
  ];
};

/** What the message is about, then safety: a quilt that is not safe to handle needs no other question answered. */
export const ENQUIRY: readonly Section[] = [
  damageSection,
  findingsSection(inGroup('safety')),
  quiltSection,
  clientSection,
  findingsSection(inGroup('wishes')),
  findingsSection(inGroup('worth')),
  historySection,
  findingsSection(canTell),
];
