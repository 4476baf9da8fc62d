import type { FurtherMark, LayoutSpec } from '../casebook/model.ts';
import {
  LAYOUT_RULES,
  mapRows,
  marksCalled,
  positionName,
  readFurther,
  rowAndColumn,
  rowName,
  writeUnits,
} from '../casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { type Answers, answerAt, textAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Flaw, InterviewSession, Question, Taken } from './question.ts';
import { saysNothing } from './typed.ts';

const UNITS = ['survey', 'units'] as const;
const ALSO = ['survey', 'also'] as const;

type Units = readonly (readonly UnitState[])[];

/** A map, and what is marked besides on units of more than one mark. */
interface Marked {
  readonly units: Units;
  readonly also: readonly FurtherMark[];
}

/** One unit with its marks, the gravest first. */
export interface ChangedSquare {
  readonly at: string;
  readonly from: readonly UnitState[];
  readonly to: readonly UnitState[];
}

/** `B3=x`, `B3=xf`: a square of the map and its new marks. Names of findings have no digits at their end without a dot before. */
export const isSquare = (setting: string): boolean => /^\s*[A-Za-z]{1,3}\d{1,4}\s*=/.test(setting);

const STATES = Object.keys(UNIT_STATES) as UnitState[];

const noSuchSquare = (name: string, units: Units): Problem => {
  const last = rowName(units.length - 1);
  const widest = Math.max(...units.map((row) => row.length));
  return {
    code: 'no-such-position',
    severity: 'error',
    what: `there is no square ${name} on the map`,
    why: 'A mark in the wrong place would change the price and the years.',
    cure: `Rows are A to ${last}, with up to ${widest} squares each, counted from the top left.`,
  };
};

const noSuchMark = (name: string, word: string): Problem => {
  const near = suggest(word, STATES);
  const marks = STATES.map((state) => `${UNIT_STATES[state]} ${state}`).join(', ');
  return {
    code: 'map-letter',
    severity: 'error',
    what: `"${word}" for ${name} is not a mark of the map`,
    cure: `Marks are ${marks}. Two go together like ${name}=sf; nothing goes with sound, missing or unseen.`,
    ...(near === undefined ? {} : { didYouMean: near }),
  };
};

const twice = (name: string): Problem => ({
  code: 'usage',
  severity: 'error',
  what: `${name} is given twice`,
  why: 'Of two marks for one square nobody could say which holds.',
  cure: 'Give each square once.',
});

/** The map with some squares otherwise; everything wrong with what was typed at once. Pure. */
export const withSquares = (
  settings: readonly string[],
  { units, also }: Marked,
): (Marked & { readonly changed: readonly ChangedSquare[] }) | { readonly problems: Problem[] } => {
  const next = units.map((row) => [...row]);
  let besides = [...also];
  const changed: ChangedSquare[] = [];
  const named = new Set<string>();
  const problems: Problem[] = [];
  for (const setting of settings) {
    const [, square = '', word = ''] = /^([^=]*)=(.*)$/s.exec(setting) ?? [];
    const at = positionName(square.trim());
    const place = rowAndColumn(at);
    const to = marksCalled(word.trim());
    const [gravest, ...rest] = to ?? [];
    const from = place && next[place.row]?.[place.column];
    if (named.has(at)) problems.push(twice(at));
    else if (place === undefined || from === undefined) problems.push(noSuchSquare(at, units));
    else if (to === undefined || gravest === undefined) problems.push(noSuchMark(at, word.trim()));
    else {
      const before = besides.filter((mark) => mark.at === at).map(({ state }) => state);
      next[place.row]?.splice(place.column, 1, gravest);
      besides = [...besides.filter((mark) => mark.at !== at), ...rest.map((state) => ({ at, state }))];
      changed.push({ at, from: [from, ...before], to });
    }
    named.add(at);
  }
  return problems.length > 0 ? { problems } : { units: next, also: besides, changed };
};

/** Further marks as a case file lists them. */
export const writeFurther = (also: readonly FurtherMark[]): string[] | undefined =>
  also.length === 0 ? undefined : also.map(({ at, state }) => `${at} ${state}`);

/** Squares and their marks, `B3 x, C4 h` or `B3x C4h`; whatever is left over is a slip. */
const namedIn = (raw: string): { settings: string[]; rest: string } => {
  const settings: string[] = [];
  const rest = raw.replace(
    /([a-z]{1,3}\d{1,4})\s*[=:]?\s*([^\s,;\d]{1,3})(?=[\s,;]|$)/gi,
    (_, square: string, marks: string) => {
      settings.push(`${square}=${marks}`);
      return '';
    },
  );
  return { settings, rest: rest.replace(/[\s,;]+/g, ' ').trim() };
};

const notASquare = (rest: string): Flaw => ({
  code: 'map-letter',
  what: `"${rest}" does not name a square and its mark`,
  cure: 'Write it like B3 x, C4 h.',
});

/** The map told by what is not sound: one line for a quilt of hundreds of units of which a dozen are bad. */
export const squaresQuestion = (
  { answers: given }: InterviewSession,
  layout: LayoutSpec,
  shown: Pick<Question, 'look'> & { readonly intro: readonly string[] },
): Question => {
  const widths = LAYOUT_RULES[layout.kind].rows(layout);
  const sound = widths.map((width) => Array<UnitState>(width).fill('sound'));
  // A map of another layout says nothing of this one: it is asked for again.
  const rows = mapRows(textAt(given, UNITS) ?? '');
  const isOfAnother =
    textAt(given, UNITS) !== UNKNOWN && rows.map((row) => row.length).join() !== widths.join();
  const answers = isOfAnother ? withAnswer(given, UNITS, undefined) : given;
  const question = plainQuestion(answers, {
    path: UNITS,
    ask: 'Which are not sound? All others are written down as sound.',
    label: 'units that are not sound',
    example: 'B3 x, C4 h, D2 sf, or none',
    ...shown,
  });
  const now = namedOn(answers);
  const { now: _, ...bare } = question;
  return {
    ...bare,
    ...(now === undefined ? {} : { now }),
    ...(isOfAnother ? { answered: false } : {}),
    take: (raw): Taken => {
      if (saysNothing(raw)) return { answers: marked(answers, UNKNOWN, []) };
      const none = /^none$/i.test(raw.trim());
      const { settings, rest } = none ? { settings: [], rest: '' } : namedIn(raw);
      if (rest !== '') return { flaw: notASquare(rest) };
      const result = withSquares(settings, { units: sound, also: [] });
      if ('problems' in result) return { flaw: result.problems[0] ?? NO_SQUARE };
      return { answers: marked(answers, writeUnits(result.units), result.also) };
    },
  };
};

const NO_SQUARE = { code: 'no-such-position', what: 'there is no such square' } as const;

/** What the map has no room for: a second mark of a unit. */
export const furtherQuestion = (
  { answers }: InterviewSession,
  shown: Pick<Question, 'look'> & { readonly intro: readonly string[] },
): Question => {
  const question = plainQuestion(answers, {
    path: ALSO,
    ask: 'Which bear a second mark, less grave than the one on the map?',
    label: 'units with a second mark',
    example: 'B3 f, C4 t, or none',
    ...shown,
    read: (raw) => {
      const none = /^none$/i.test(raw.trim());
      const { settings, rest } = none ? { settings: [], rest: '' } : namedIn(raw);
      if (rest !== '') return { flaw: notASquare(rest) };
      const list = settings.flatMap((setting) => {
        const [square = '', mark = ''] = setting.split('=');
        return (marksCalled(mark) ?? [mark]).map((state) => `${positionName(square)} ${state}`);
      });
      return { value: list.length === 0 ? UNKNOWN : list };
    },
  });
  const list = answerAt(answers, ALSO);
  return {
    ...question,
    ...(list === undefined ? {} : { now: Array.isArray(list) ? list.join(', ') : 'none' }),
  };
};

/** Both halves of one answer: the map, and the further marks, none where there were some before. */
const marked = (answers: Answers, units: string, also: readonly FurtherMark[]): Answers =>
  withAnswer(
    withAnswer(answers, UNITS, units),
    ALSO,
    writeFurther(also) ?? (answerAt(answers, ALSO) === undefined ? undefined : UNKNOWN),
  );

/** What is not sound on a map, unit by unit. */
const namedOn = (answers: Answers): string | undefined => {
  const text = textAt(answers, UNITS);
  if (text === undefined) return undefined;
  const list = answerAt(answers, ALSO);
  const besides = (Array.isArray(list) ? list : []).flatMap((each) => readFurther(String(each)) ?? []);
  const named = mapRows(text).flatMap((row, r) =>
    row.flatMap((mark, column) => {
      const at = `${rowName(r)}${column + 1}`;
      const own = besides.filter((other) => other.at === at).map(({ state }) => UNIT_STATES[state]);
      return mark === '.' ? [] : [`${at} ${mark}${own.join('')}`];
    }),
  );
  return named.length === 0 ? 'none' : named.join(', ');
};
