import type { FindingDef } from '../findings/vocabulary.ts';
import { ASIDE, answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { damageSection } from './damage-section.ts';
import { findingsSection } from './finding-question.ts';
import { clientSection, quiltSection } from './layout-section.ts';
import { plainQuestion } from './plain-question.ts';
import { type Flaw, type Hearing, inStretch, type Question, type Section } from './question.ts';

/** Groups of the vocabulary that a first message with photos can answer; any other finding a client can know is asked too. */
const FIRST_MESSAGE: ReadonlySet<string> = new Set(['safety', 'wishes', 'worth']);

const canTell = (def: FindingDef): boolean =>
  def.who === 'client' || (def.who === 'photos' && FIRST_MESSAGE.has(def.group));

const inGroup = (group: string) => (def: FindingDef) => def.group === group && canTell(def);

/** Sections asked in full whatever the answer: what is wrong, safety, the size and whose it is. */
export const ENQUIRY_OPENING = 4;

const NO_MORE = 'no more';

/** How it was used over the years, one stretch after another: what its wear is reckoned from. */
const historySection: Section = (hearing) => {
  const { answers } = hearing;
  const told = answerAt(answers, ['history']);
  const spells = Array.isArray(told) ? told.length : 0;
  const done = answerAt(answers, [ASIDE, 'history']) !== undefined;
  const asked = Array.from({ length: spells }, (_, index) => spellQuestions(hearing, index)).flat();
  // A history that is there already was told by somebody; it is not asked for again.
  const complete = spells > 0 && answerAt(answers, [ASIDE, 'history-asked']) === undefined;
  return inStretch('history', [], done || complete ? asked : [...asked, useQuestion(hearing, spells)]);
};

const useQuestion = (hearing: Hearing, index: number): Question => {
  const { answers, vocabulary } = hearing;
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

const spellQuestions = (hearing: Hearing, index: number): Question[] => {
  const { answers } = hearing;
  const at = (name: string) => ['history', index, name] as const;
  const intro = ['Its life so far, from the beginning'];
  return [
    useQuestion(hearing, index),
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
