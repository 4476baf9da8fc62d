import { FABRICS } from '../decision/questions/next-question.ts';
import { type Answers, ASIDE, answerAt, isGroup, textAt, withAnswer } from './answers.ts';
import { findingQuestion } from './finding-question.ts';
import { layoutOf } from './layout-section.ts';
import { plainQuestion } from './plain-question.ts';
import { type Flaw, type InterviewSession, inStretch, type Question, type Section } from './question.ts';
import { saysNothing } from './typed.ts';

const INTRO = [
  'Each fabric: cloth fails by the fabric, not by the block',
  '  Commas answer the rest of a fabric in one line, such as: weak, cotton, none, no',
];

/** Letters and names of the fabrics said so far. */
export const familiesOf = ({
  answers,
}: InterviewSession): readonly { letter: string; name: string | undefined }[] => {
  const families = answerAt(answers, ['survey', 'families']);
  if (!isGroup(families)) return [];
  return Object.keys(families).map((letter) => ({
    letter,
    name: textAt(answers, ['survey', 'families', letter, 'name']),
  }));
};

/** How it is told where each fabric is: on a map, by shares, or not at all. */
export const familiesBy = ({ answers }: InterviewSession): unknown =>
  answerAt(answers, ['survey', 'family_map']) === undefined ? answerAt(answers, [ASIDE, 'families']) : 'map';

/** Names the fabrics, then grades each: everything the vocabulary asks of a family. */
export const familiesSection: Section = (session) => {
  const families = familiesOf(session);
  return inStretch(
    'fabrics',
    [],
    [
      { ...namesQuestion(session), bearsOn: [FABRICS] },
      ...(families.length > 1 ? [whereQuestion(session)] : []),
      ...families.flatMap(({ letter, name }) => familyQuestions(session, letter, name)),
    ],
  );
};

const namesSaid = (session: InterviewSession): { now?: string } => {
  const names = familiesOf(session).map(({ letter, name }) => name ?? letter);
  return names.length === 0 ? {} : { now: names.join(', ') };
};

/** Commas part the names, or semicolons where a name needs a comma; "worn alike" belongs to the group before it. */
const namesIn = (raw: string): string[] =>
  raw
    .replace(/,\s*((?:all\s+)?(?:worn|aged|faded)\s+alike)/gi, ' $1')
    .split(raw.includes(';') ? ';' : ',')
    .map((name) => name.trim());

const namesQuestion = ({ answers, vocabulary }: InterviewSession): Question => ({
  ...plainQuestion(answers, {
    path: ['survey', 'families'],
    ask: 'Which fabrics are in the top? Name each, or groups that have aged alike, commas between.',
    label: 'fabrics',
    example: 'indigo, shirtings, brown print',
    intro: INTRO,
    look: [
      'How to look: Lay a list beside the quilt and name each different print or cloth once. Many scraps that have aged alike count as one: about forty prints, worn alike. Each name or group gets a letter: A, B, C and so on.',
    ],
  }),
  ...namesSaid({ answers, vocabulary }),
  take: (raw) => {
    const names = namesIn(raw).filter((name) => !saysNothing(name));
    if (names.length === 0) return { answers: withAnswer(answers, ['survey', 'families'], 'unknown') };
    if (names.length > LETTERS.length) {
      const what = `${names.length} fabrics are named, but the map has letters for ${LETTERS.length}`;
      return { flaw: { code: 'out-of-range', what, cure: 'Group fabrics that have aged alike.' } };
    }
    return { answers: withAnswer(answers, ['survey', 'families'], namedAnew(names, answers)) };
  },
});

/** Fabrics that were named before keep their letter and all that was said of them. */
const namedAnew = (names: readonly string[], answers: Answers): Answers => {
  const before = answerAt(answers, ['survey', 'families']);
  const known = Object.entries(isGroup(before) ? before : {});
  const same = (name: string) =>
    known.find(
      ([, family]) => String(answerAt({ family }, ['family', 'name'])).toLowerCase() === name.toLowerCase(),
    );
  const taken = new Set(names.flatMap((name) => same(name)?.[0] ?? []));
  const free = [...LETTERS].filter((letter) => !taken.has(letter));
  return Object.fromEntries(names.map((name) => same(name) ?? [free.shift() ?? '', { name }]));
};

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

const whereQuestion = (session: InterviewSession): Question => ({
  ...plainQuestion(session.answers, {
    path: [ASIDE, 'families'],
    ask: 'How will you say where each fabric is?',
    label: 'where each fabric is',
    choices: [
      ...(layoutOf(session) === undefined ? [] : [{ value: 'map', label: 'on a map, row by row' }]),
      { value: 'share', label: 'by its share of the top' },
    ],
    intro: INTRO,
  }),
  ...(familiesBy(session) === undefined ? {} : { answered: true }),
});

/** Without a map a share says how much of it there is; a map of units already shows what is lost. */
const asksFor = (session: InterviewSession, id: string): boolean => {
  if (id === 'share') return familiesOf(session).length > 1 && familiesBy(session) === 'share';
  if (id === 'lost') return familiesBy(session) === 'share';
  return true;
};

const singleQuestions = (session: InterviewSession, letter: string, name: string | undefined): Question[] => {
  const photos = answerAt(session.answers, ['survey', 'seen']) === 'photos';
  return [...session.vocabulary.family.values()]
    .filter((def) => def.question !== undefined && asksFor(session, def.id))
    .filter((def) => !photos || def.who !== 'in hand' || def.kind === 'grade')
    .map((def) =>
      findingQuestion(def, session, {
        path: def.at.split('.').map((step) => (step === '*' ? letter : step)),
        family: letter,
        about: name === undefined ? letter : `${letter}, ${name}`,
        intro: INTRO,
      }),
    );
};

/** The questions of one fabric. Commas answer those after it in the same line: `weak, cotton, none, no`. */
const familyQuestions = (session: InterviewSession, letter: string, name: string | undefined): Question[] =>
  singleQuestions(session, letter, name).map((question, index) => ({
    ...question,
    take: (raw) => {
      const parts = raw.split(',');
      if (parts.length === 1) return question.take(raw);
      let answers = session.answers;
      for (const [at, part] of parts.entries()) {
        const each = singleQuestions({ ...session, answers }, letter, name)[index + at];
        if (each === undefined) return { flaw: tooMany(parts.length, at) };
        const taken = each.take(part);
        if (!('answers' in taken)) return taken;
        answers = taken.answers;
      }
      return { answers };
    },
  }));

const tooMany = (given: number, asked: number): Flaw => ({
  code: 'out-of-range',
  what: `${given} answers are given, but only ${asked} are asked for here`,
  cure: 'Give one for each question, commas between.',
});
