import { UNIT_STATES, type UnitState } from '../../casebook/scales.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { suggest } from '../../source/suggest.ts';
import { ASIDE, answerAt, textAt, withAnswer } from './answers.ts';
import { familiesBy, familiesOf } from './families-section.ts';
import { layoutOf } from './layout-section.ts';
import { mapQuestions } from './map-questions.ts';
import { asNumber, plainQuestion } from './plain-question.ts';
import { type Hearing, inStretch, type Question, type Section, type Taken } from './question.ts';

const INTRO = ['The state of each unit'];

const stateLabel = (state: string, vocabulary: Vocabulary): string =>
  vocabulary.unit.get('state')?.options.find(({ value }) => value === state)?.label ?? state;

/** The marks, in the vocabulary's words. */
const legend = (vocabulary: Vocabulary): string[] => [
  'The map, one row at a time, from the top left as you look at it. Marks:',
  ...Object.entries(UNIT_STATES).map(
    ([state, mark]) => `  ${mark}  ${state === 'unseen' ? 'not seen' : stateLabel(state, vocabulary)}`,
  ),
  'Blanks between marks are up to you. "all ." is a whole row of one mark, "redo B" does row B again.',
];

/** Map or counts of what state the units are in, then the map of fabrics. */
export const unitsSection: Section = (hearing) => {
  const { answers, vocabulary } = hearing;
  const layout = layoutOf(hearing);
  const by = unitsBy(hearing);
  return inStretch(
    'units',
    ['lost'],
    [
      wayQuestion(hearing),
      ...(by === 'map' && layout !== undefined
        ? mapQuestions(hearing, {
            name: 'units',
            layout,
            legend: legend(vocabulary),
            blank: '?',
            label: 'units',
          })
        : []),
      ...(by === 'counts' ? countQuestions(hearing) : []),
      ...(familiesBy(hearing) === 'map' &&
      layout !== undefined &&
      textAt(answers, [ASIDE, 'families']) !== 'share'
        ? mapQuestions(hearing, {
            name: 'family_map',
            layout,
            legend: familyLegend(hearing),
            blank: undefined,
            label: 'fabrics',
          })
        : []),
    ],
  );
};

const familyLegend = (hearing: Hearing): string[] => [
  'The map of fabrics, one row at a time, one letter for each unit:',
  ...familiesOf(hearing).map(({ letter, name }) => `  ${letter}  ${name ?? 'without a name'}`),
  '"all A" is a whole row of one fabric, "redo B" does row B again.',
];

const unitsBy = ({ answers }: Hearing): unknown => {
  if (answerAt(answers, ['survey', 'units']) !== undefined) return 'map';
  if (answerAt(answers, ['survey', 'counts']) !== undefined) return 'counts';
  return answerAt(answers, [ASIDE, 'units']);
};

const wayQuestion = (hearing: Hearing): Question => ({
  ...plainQuestion(hearing.answers, {
    path: [ASIDE, 'units'],
    ask: 'How will you note the state of the units?',
    label: 'state of the units',
    choices: [
      ...(layoutOf(hearing) === undefined ? [] : [{ value: 'map', label: 'on a map, row by row' }]),
      { value: 'counts', label: 'only how many are in which state' },
    ],
    intro: INTRO,
  }),
  ...(unitsBy(hearing) === undefined ? {} : { answered: true }),
});

const countQuestions = (hearing: Hearing): Question[] => {
  const { answers, vocabulary } = hearing;
  const path = ['survey', 'counts'] as const;
  const question = plainQuestion(answers, {
    path: [...path, 'states'],
    ask: 'How many are not sound? The others count as sound.',
    label: 'units that are not sound',
    example: 'lost 3, hole 2',
    intro: INTRO,
    look: Object.keys(UNIT_STATES)
      .filter((state) => state !== 'sound')
      .map((state) => `${state}: ${state === 'unseen' ? 'not seen' : stateLabel(state, vocabulary)}`),
  });
  return [
    plainQuestion(answers, {
      path: [...path, 'of'],
      ask: 'How many units are there in all?',
      label: 'units in all',
      example: '64',
      required: true,
      intro: INTRO,
      read: asNumber,
    }),
    {
      ...question,
      answered:
        answerAt(answers, [ASIDE, 'counted']) !== undefined ||
        Object.keys(answerAt(answers, path) ?? {}).length > 1,
      take: (raw): Taken => {
        const told = readCounts(raw);
        if ('flaw' in told) return told;
        let next = withAnswer(answers, [ASIDE, 'counted'], 'yes');
        for (const [state, count] of told.counts) next = withAnswer(next, [...path, state], count);
        return { answers: next };
      },
    },
  ];
};

const STATES = (Object.keys(UNIT_STATES) as UnitState[]).filter((state) => state !== 'sound');

/** `lost 3, 2 hole`: a state and a number each. */
const readCounts = (raw: string): { counts: [string, number][] } | Extract<Taken, { flaw: unknown }> => {
  const counts: [string, number][] = [];
  for (const part of raw.split(',').map((each) => each.trim())) {
    if (part === '' || part === 'unknown') continue;
    const [, before, count, after] = /^([a-z]*)\s*(\d+)\s*([a-z]*)$/i.exec(part) ?? [];
    const word = (before || after || '').toLowerCase();
    const state = STATES.find((each) => each === word);
    if (state === undefined || count === undefined) {
      const near = suggest(word, STATES);
      const what = `"${part}" does not say a state and how many`;
      const cure = `Write it like lost 3, hole 2. States: ${STATES.join(', ')}.`;
      return {
        flaw: { code: 'not-an-option', what, cure, ...(near === undefined ? {} : { didYouMean: near }) },
      };
    }
    counts.push([state, Number(count)]);
  }
  return { counts };
};
