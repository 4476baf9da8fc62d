import type { LayoutSpec } from '../casebook/model.ts';
import { LAYOUT_RULES, mapRows, positionName, rowName, stateOf, writeUnits } from '../casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { textAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { InterviewSession, Question, Taken } from './question.ts';
import { saysNothing } from './typed.ts';

type Units = readonly (readonly UnitState[])[];

export interface ChangedSquare {
  readonly at: string;
  readonly from: UnitState;
  readonly to: UnitState;
}

/** `B3=x`: a square of the map and its new mark. Names of findings have no digits at their end without a dot before. */
export const isSquare = (setting: string): boolean => /^\s*[A-Za-z]{1,3}\d{1,4}\s*=/.test(setting);

const STATES = Object.keys(UNIT_STATES) as UnitState[];

/** A mark of the map, or the word for it. */
const stateCalled = (word: string): UnitState | undefined =>
  stateOf(word) ?? STATES.find((state) => state === word.toLowerCase());

const placeOf = (name: string, units: Units): { row: number; column: number } | undefined => {
  const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(name) ?? [];
  const row = units.findIndex((_, index) => rowName(index) === letters);
  const column = Number(digits) - 1;
  return units[row]?.[column] === undefined ? undefined : { row, column };
};

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
    cure: `Marks are ${marks}.`,
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
  units: Units,
):
  | { readonly units: UnitState[][]; readonly changed: readonly ChangedSquare[] }
  | { readonly problems: Problem[] } => {
  const next = units.map((row) => [...row]);
  const changed: ChangedSquare[] = [];
  const named = new Set<string>();
  const problems: Problem[] = [];
  for (const setting of settings) {
    const [, square = '', word = ''] = /^([^=]*)=(.*)$/s.exec(setting) ?? [];
    const name = positionName(square.trim());
    const place = placeOf(name, units);
    const to = stateCalled(word.trim());
    const from = place && units[place.row]?.[place.column];
    if (named.has(name)) problems.push(twice(name));
    else if (place === undefined || from === undefined) problems.push(noSuchSquare(name, units));
    else if (to === undefined) problems.push(noSuchMark(name, word.trim()));
    else {
      next[place.row]?.splice(place.column, 1, to);
      changed.push({ at: name, from, to });
    }
    named.add(name);
  }
  return problems.length > 0 ? { problems } : { units: next, changed };
};

/** Squares and their marks, `B3 x, C4 h` or `B3x C4h`; whatever is left over is a slip. */
const namedIn = (raw: string): { settings: string[]; rest: string } => {
  const settings: string[] = [];
  const rest = raw.replace(
    /([a-z]{1,3}\d{1,4})\s*[=:]?\s*([^\s,;\d])(?=[\s,;]|$)/gi,
    (_, square: string, mark: string) => {
      settings.push(`${square}=${mark}`);
      return '';
    },
  );
  return { settings, rest: rest.replace(/[\s,;]+/g, ' ').trim() };
};

/** The map told by what is not sound: one line for a quilt of hundreds of units of which a dozen are bad. */
export const squaresQuestion = (
  { answers }: InterviewSession,
  layout: LayoutSpec,
  shown: Pick<Question, 'look'> & { readonly intro: readonly string[] },
): Question => {
  const path = ['survey', 'units'] as const;
  const sound = LAYOUT_RULES[layout.kind].rows(layout).map((width) => Array<UnitState>(width).fill('sound'));
  const question = plainQuestion(answers, {
    path,
    ask: 'Which are not sound? All others are written down as sound.',
    label: 'units that are not sound',
    example: 'B3 x, C4 h, or none',
    ...shown,
  });
  const now = namedOn(textAt(answers, path));
  const { now: _, ...bare } = question;
  return {
    ...bare,
    ...(now === undefined ? {} : { now }),
    take: (raw): Taken => {
      if (saysNothing(raw)) return { answers: withAnswer(answers, path, UNKNOWN) };
      const none = /^none$/i.test(raw.trim());
      const { settings, rest } = none ? { settings: [], rest: '' } : namedIn(raw);
      if (rest !== '') {
        const what = `"${rest}" does not name a square and its mark`;
        return { flaw: { code: 'map-letter', what, cure: 'Write it like B3 x, C4 h.' } };
      }
      const result = withSquares(settings, sound);
      if ('problems' in result) return { flaw: result.problems[0] ?? NO_SQUARE };
      return { answers: withAnswer(answers, path, writeUnits(result.units)) };
    },
  };
};

const NO_SQUARE = { code: 'no-such-position', what: 'there is no such square' } as const;

/** What is not sound on a map, square by square. */
const namedOn = (text: string | undefined): string | undefined => {
  if (text === undefined) return undefined;
  const named = mapRows(text).flatMap((row, at) =>
    row.flatMap((mark, column) => (mark === '.' ? [] : [`${rowName(at)}${column + 1} ${mark}`])),
  );
  return named.length === 0 ? 'none' : named.join(', ');
};
