import { readAnswer } from '../findings/read-answer.ts';
import { type FindingDef, type Kind, pathOf, type Vocabulary } from '../findings/vocabulary.ts';
import type { Path } from '../source/source.ts';
import { type Answers, answerAt, textAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Flaw, InterviewSession, Question, Section } from './question.ts';
import { typedDay, typedMeasure } from './typed.ts';

/** Kinds that a case file holds with their unit, in the words they were given in. */
const WITH_UNIT: ReadonlySet<Kind> = new Set(['length', 'area', 'weight', 'fraction']);

const EXAMPLES: Readonly<Partial<Record<Kind, string>>> = {
  length: '4 1/2 in or 12 cm',
  area: '12 in2 or 80 cm2',
  weight: '3.2 lb or 1.4 kg',
  fraction: '10 %',
  count: '3',
  money: '1100',
  years: '10',
  number: '8',
};

/** A bare figure takes the word that goes with it: 8 weeks; a calendar year takes none. */
const exampleOf = ({ kind, unit }: FindingDef): string | undefined => {
  if (kind !== 'number' || unit === undefined) return EXAMPLES[kind];
  return unit === 'year' ? '1935' : `8 ${unit}`;
};

/** An answer as a case file writes it, read by the vocabulary's own reader. */
export const writtenAnswer = (
  def: FindingDef,
  raw: unknown,
): { readonly value: unknown } | { readonly flaw: Flaw } | { readonly unknown: true } => {
  const reading = readAnswer(def, raw);
  if ('problem' in reading) return { flaw: reading.problem };
  if ('unknown' in reading) return reading;
  if (typeof reading.value === 'boolean') return { value: reading.value ? 'yes' : 'no' };
  // Measures keep the words and the unit they were given in: 12 cm stays 12 cm.
  return { value: WITH_UNIT.has(def.kind) && typeof raw === 'string' ? raw.trim() : reading.value };
};

const choicesOf = (def: FindingDef): Question['choices'] => {
  if (def.kind === 'yes/no')
    return [
      { value: 'yes', label: 'yes' },
      { value: 'no', label: 'no' },
    ];
  // An option called unknown says the same as passing the question over.
  return def.options.filter(({ value }) => value !== 'unknown').map(({ value, label }) => ({ value, label }));
};

interface Placed {
  readonly path: Path;
  /** What the question is about, where the finding alone does not say: "A, indigo". */
  readonly about?: string;
  readonly intro?: readonly string[];
  readonly required?: boolean;
  /** The letter of the fabric it is a finding of. */
  readonly family?: string;
}

/** The question a finding asks: words, choices, signs and checks all come from the vocabulary. */
export const findingQuestion = (
  def: FindingDef,
  { answers, vocabulary, units }: InterviewSession,
  placed: Placed,
): Question => {
  const { about, path, intro, required } = placed;
  const seen = textAt(answers, ['survey', 'seen']) === 'photos' ? 'photos' : 'in hand';
  const example = exampleOf(def);
  const lead = about === undefined ? '' : `${about}: `;
  const name = placed.family === undefined ? def.id : `${placed.family}.${def.id}`;
  const question = plainQuestion(answers, {
    path,
    ask: `${lead}${def.question ?? def.label}`,
    label: `${lead}${def.label}`,
    choices: choicesOf(def),
    ...(example === undefined ? {} : { example }),
    look: lookLines(def, vocabulary, seen),
    ...(intro === undefined ? {} : { intro }),
    ...(required === undefined ? {} : { required }),
    read: (raw) => {
      const written = writtenAnswer(def, typedMeasure(def.kind, raw, units));
      return 'unknown' in written ? { value: UNKNOWN } : written;
    },
  });
  return { ...question, bearsOn: [name] };
};

/** Ways of looking that a photo allows; pinching, tugging and needles want the cloth. */
const BY_EYE: ReadonlySet<string> = new Set(['look']);

/**
 * How to look for a finding, one paragraph an entry: the way, the observable signs of each grade or choice, and,
 * where cloth is tested, how to test and when to stop. `seen` in photos leaves out what only a hand can try.
 */
export function lookLines(def: FindingDef, vocabulary: Vocabulary, seen?: 'photos' | 'in hand'): string[] {
  const photos = seen === 'photos';
  const signs = def.options.flatMap(({ label, anchors }) => {
    const shown = Object.entries(anchors).filter(([way]) => !photos || BY_EYE.has(way));
    if (shown.length === 0) return [];
    return [`${label}: ${shown.map(([way, sign]) => `${way}: ${sign}`).join('; ')}.`];
  });
  if (def.kind === 'grade' && photos) return [FROM_PHOTOS, ...signs];
  const testing = def.kind === 'grade' ? [vocabulary.protocol, `Stop: ${vocabulary.stopRule}`] : [];
  return [`How to look: ${def.how}`, ...testing, ...signs];
}

const FROM_PHOTOS =
  'How to look: by eye only, at the worst place in the sharpest picture. A photo cannot grade cloth: it counts as that grade or a worse one.';

/** Whether what has been said makes a finding needless, as the vocabulary's `needless when` has it. Pure. */
const isNeedless = (def: FindingDef, answers: Answers, vocabulary: Vocabulary): boolean =>
  def.needless.some(({ finding, is }) => {
    const other = vocabulary.findings.get(finding);
    const path = other && pathOf(other);
    if (other === undefined || path === undefined) return false;
    const reading = readAnswer(other, answerAt(answers, path));
    return 'value' in reading && reading.value === is;
  });

const DAY = ['survey', 'findings', 'deadline'] as const;
const WEEKS = ['survey', 'findings', 'deadline_weeks'] as const;

/**
 * Asks for the day in place of the weeks of the vocabulary: weeks go stale from the day they are written down. Weeks
 * that are on file count as an answer until a day takes their place.
 */
const deadlineQuestion = (
  def: FindingDef,
  { answers, today }: InterviewSession,
  intro: readonly string[],
): Question => {
  const weeks = answerAt(answers, WEEKS);
  const question = plainQuestion(answers, {
    path: DAY,
    ask: 'By which day must it be ready, if there is one?',
    label: 'the day it must be ready',
    example: '24 December, or in 6 weeks',
    look: ['How to look: Ask for the day it must be in the client’s hands, and what it is needed for.'],
    intro,
    read: (raw) => (/^no(ne)?$/i.test(raw.trim()) ? { value: UNKNOWN } : typedDay(raw, today)),
  });
  return {
    ...question,
    bearsOn: [def.id],
    answered: question.answered || weeks !== undefined,
    ...(question.now !== undefined || weeks === undefined
      ? {}
      : { now: `in ${String(weeks)} weeks, when it was asked` }),
    take: (raw) => {
      const taken = question.take(raw);
      if (!('answers' in taken) || weeks === undefined) return taken;
      return { answers: withAnswer(taken.answers, WEEKS, UNKNOWN) };
    },
  };
};

/** The quilt's findings that pass `wanted`, group by group in the order of the vocabulary; needless ones fall away. */
export const findingsSection =
  (wanted: (def: FindingDef, session: InterviewSession) => boolean): Section =>
  (session) => {
    const { answers, vocabulary } = session;
    return vocabulary.groups.flatMap(({ id, title }) =>
      [...vocabulary.findings.values()]
        .filter((def) => def.group === id && def.per === 'quilt' && def.question !== undefined)
        .filter((def) => wanted(def, session) && !isNeedless(def, answers, vocabulary))
        .sort((one, other) => one.order - other.order)
        .flatMap((def): Question[] => {
          const path = pathOf(def);
          if (def.id === 'deadline_weeks') return [deadlineQuestion(def, session, [title])];
          return path === undefined ? [] : [findingQuestion(def, session, { path, intro: [title] })];
        }),
    );
  };
