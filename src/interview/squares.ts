import { positionName, rowName, stateOf } from '../casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';

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

/** The map with some squares otherwise; everything wrong with what was typed at once. Pure. */
export const withSquares = (
  settings: readonly string[],
  units: Units,
):
  | { readonly units: UnitState[][]; readonly changed: readonly ChangedSquare[] }
  | { readonly problems: Problem[] } => {
  const next = units.map((row) => [...row]);
  const changed: ChangedSquare[] = [];
  const problems: Problem[] = [];
  for (const setting of settings) {
    const [, square = '', word = ''] = /^([^=]*)=(.*)$/s.exec(setting) ?? [];
    const name = positionName(square.trim());
    const place = placeOf(name, units);
    const to = stateCalled(word.trim());
    const from = place && units[place.row]?.[place.column];
    if (place === undefined || from === undefined) problems.push(noSuchSquare(name, units));
    else if (to === undefined) problems.push(noSuchMark(name, word.trim()));
    else {
      next[place.row]?.splice(place.column, 1, to);
      changed.push({ at: name, from, to });
    }
  }
  return problems.length > 0 ? { problems } : { units: next, changed };
};
