import type { LayoutSpec } from '../casebook/model.ts';
import { LAYOUT_RULES, mapRows, rowName } from '../casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { suggest } from '../source/suggest.ts';
import { ASIDE, answerAt, textAt, withAnswer } from './answers.ts';
import { familiesBy, familiesOf } from './families-section.ts';
import { layoutOf } from './layout-section.ts';
import { asCount, plainQuestion } from './plain-question.ts';
import {
  type Flaw,
  type InterviewSession,
  inStretch,
  type Question,
  type Section,
  type Taken,
} from './question.ts';
import { squaresQuestion } from './squares.ts';
import { saysNothing } from './typed.ts';
import { rowFault } from './validate-answers.ts';

const INTRO = ['The state of each unit'];

const stateLabel = (state: string, vocabulary: Vocabulary): string =>
  vocabulary.unit.get('state')?.options.find(({ value }) => value === state)?.label ?? state;

/** The marks, in the vocabulary's words. */
const legend = (vocabulary: Vocabulary): string[] => [
  'The map, one row at a time or several with / between, from the top left as you look at it. Marks:',
  ...Object.entries(UNIT_STATES).map(
    ([state, mark]) => `  ${mark}  ${state === 'unseen' ? 'not seen' : stateLabel(state, vocabulary)}`,
  ),
  'Blanks between marks are up to you. "all ." is a whole row of one mark, ".w+" goes on so, "as A" is row A once more, "redo B" does row B again.',
];

/** Map or counts of what state the units are in, then the map of fabrics. */
export const unitsSection: Section = (session) => {
  const { answers, vocabulary } = session;
  const layout = layoutOf(session);
  const by = unitsBy(session);
  return inStretch(
    'units',
    ['lost'],
    [
      wayQuestion(session),
      ...(by === 'map' && layout !== undefined
        ? mapQuestions(session, {
            name: 'units',
            layout,
            legend: legend(vocabulary),
            blank: '?',
            label: 'units',
          })
        : []),
      ...(by === 'list' && layout !== undefined
        ? [squaresQuestion(session, layout, { intro: INTRO, look: legend(vocabulary) })]
        : []),
      ...(by === 'counts' ? countQuestions(session) : []),
      ...(familiesBy(session) === 'map' &&
      layout !== undefined &&
      textAt(answers, [ASIDE, 'families']) !== 'share'
        ? mapQuestions(session, {
            name: 'family_map',
            layout,
            legend: familyLegend(session),
            blank: undefined,
            label: 'fabrics',
          })
        : []),
    ],
  );
};

const familyLegend = (session: InterviewSession): string[] => [
  'The map of fabrics, one row at a time or several with / between, one letter for each unit:',
  ...familiesOf(session).map(({ letter, name }) => `  ${letter}  ${name ?? 'without a name'}`),
  '"all A" is a whole row of one fabric, "ABC+" goes on so, "as A" is row A once more, "redo B" does row B again.',
];

/** How the state of the units is told: on a map, by counts, or not yet. */
export const unitsBy = ({ answers }: InterviewSession): unknown => {
  if (answerAt(answers, [ASIDE, 'units']) === 'list') return 'list';
  if (answerAt(answers, ['survey', 'units']) !== undefined) return 'map';
  if (answerAt(answers, ['survey', 'counts']) !== undefined) return 'counts';
  return answerAt(answers, [ASIDE, 'units']);
};

const wayQuestion = (session: InterviewSession): Question => ({
  ...plainQuestion(session.answers, {
    path: [ASIDE, 'units'],
    ask: 'How will you note the state of the units?',
    label: 'state of the units',
    choices: [
      ...(layoutOf(session) === undefined
        ? []
        : [
            { value: 'list', label: 'by naming those that are not sound, such as B3 x' },
            { value: 'map', label: 'on a map, row by row' },
          ]),
      { value: 'counts', label: 'only how many are in which state' },
    ],
    intro: INTRO,
  }),
  ...(unitsBy(session) === undefined ? {} : { answered: true }),
});

const countQuestions = (session: InterviewSession): Question[] => {
  const { answers, vocabulary } = session;
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
      intro: INTRO,
      read: asCount('units in all', 1),
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
    if (saysNothing(part)) continue;
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

interface MapWanted {
  readonly name: 'units' | 'family_map';
  readonly layout: LayoutSpec;
  readonly legend: readonly string[];
  /** The mark for a whole row that nobody has looked at. */
  readonly blank: string | undefined;
  readonly label: string;
}

const written = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.join(' ')}\n`).join('');

/**
 * Marks of one row: with or without blanks between them; `all w` is a whole row of one mark, `ABC+` goes on so to
 * the end of the row, `as A` is the row above called A once more.
 */
const marksOf = (raw: string, width: number, rows: readonly (readonly string[])[]): string[] => {
  const [, mark] = /^\s*all\s+(\S)\s*$/i.exec(raw) ?? [];
  const [, like] = /^\s*as\s+([a-z]{1,3})\s*$/i.exec(raw) ?? [];
  const same = like === undefined ? undefined : rows.find((_, at) => rowName(at) === like.toUpperCase());
  if (same !== undefined) return [...same];
  const [, pattern] = /^\s*((?:\S\s*)+?)\s*\+\s*$/.exec(raw) ?? [];
  const repeated = [...(pattern ?? '').replace(/\s+/g, '')];
  if (repeated.length > 0)
    return Array.from({ length: width }, (_, at) => repeated[at % repeated.length] ?? '');
  return mark === undefined ? [...raw.replace(/\s+/g, '')] : Array.from({ length: width }, () => mark);
};

/** A map taken row by row, each row a question of its own, held to its own marks and nothing else before the last row. */
const mapQuestions = (session: InterviewSession, wanted: MapWanted): Question[] => {
  const { name, layout, legend, blank, label } = wanted;
  const path = ['survey', name] as const;
  const { answers } = session;
  const rows = mapRows(textAt(answers, path) ?? '');
  const widths = LAYOUT_RULES[layout.kind].rows(layout);
  return widths.map((width, index): Question => {
    const row = rowName(index);
    const now = rows[index]?.join(' ');
    const take = (raw: string): Taken => {
      const [, other] = /^\s*redo\s+([a-z]{1,3})\s*$/i.exec(raw) ?? [];
      if (other !== undefined) return redo(other, name, rows.length);
      const empty = saysNothing(raw);
      if (empty && blank === undefined) {
        const what = `row ${row} is needed, or the rows after it would all move up`;
        return {
          flaw: {
            code: 'map-shape',
            what,
            cure: 'Type "change where each fabric is" to tell it by shares instead.',
          },
        };
      }
      const next = rows.slice(0, widths.length);
      // A stroke between rows gives several in one line.
      for (const [after, part] of raw.split('/').entries()) {
        const at = index + after;
        const wide = widths[at];
        if (wide === undefined) return { flaw: tooManyRows(widths.length) };
        const marks = empty ? Array.from({ length: wide }, () => blank ?? '?') : marksOf(part, wide, next);
        const flaw = rowFault(session, name, at, marks);
        if (flaw !== undefined) return { flaw };
        next[at] = marks;
      }
      return { answers: withAnswer(answers, path, written(next)) };
    };
    return {
      id: `survey.${name}.${row}`,
      ask: `Row ${row}, ${width} ${width === 1 ? 'mark' : 'marks'}:`,
      label: `${label}, row ${row}`,
      choices: [],
      look: legend,
      intro: legend,
      required: false,
      answered: now !== undefined,
      ...(now === undefined ? {} : { now, keep: () => take(now) }),
      take,
    };
  });
};

const tooManyRows = (rows: number): Flaw => ({
  code: 'map-shape',
  what: `more rows are given than the ${rows} there are`,
  cure: `The last row is ${rowName(rows - 1)}.`,
});

const redo = (
  row: string,
  name: string,
  done: number,
): { again: string } | { flaw: { code: 'no-such-position'; what: string; cure: string } } => {
  const names = Array.from({ length: done }, (_, index) => rowName(index));
  const wanted = row.toUpperCase();
  if (names.includes(wanted)) return { again: `survey.${name}.${wanted}` };
  const what = `row ${wanted} has not been given yet`;
  const last = names.at(-1);
  const cure = last === undefined ? 'Give the first row.' : `Rows A to ${last} can be done again.`;
  return { flaw: { code: 'no-such-position', what, cure } };
};
