import type { ToldCause } from '../casebook/model.ts';
import { joinKey, readJoin } from '../casebook/positions.ts';
import { type Cause, DAMAGED_STATES } from '../casebook/scales.ts';
import { isPlaced } from './survey-groups.ts';
import type { SurveyedJoins, SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** What a cause tells of the cloth's own life: wear does, and neither accidents nor what ate at it. */
type Tells = 'wear' | 'nothing';
const TELLS: Readonly<Record<Cause, Tells>> = {
  wear: 'wear',
  washing: 'wear',
  light: 'wear',
  accident: 'nothing',
  animals: 'nothing',
  insects: 'nothing',
};

/** Causes that rules ask about: whether any damage is put down to them. A note that is not there is no. */
export const causeFacts = ({ causes = [] }: SurveyedQuilt): Readonly<Record<string, boolean>> => ({
  damage_by_washing: causes.some(({ why }) => why === 'washing'),
  damage_by_light: causes.some(({ why }) => why === 'light'),
  damage_by_insects: causes.some(({ why }) => why === 'insects'),
});

/** Parts of what is damaged that are put down to wear, and to what tells nothing of it; of the rest no cause is told. */
export type Told = Readonly<Record<Tells, number>>;

const NONE: Told = { wear: 0, nothing: 0 };

/** How many of something each cause is told of, named one by one or by their number; `all` stands for the rest. */
const tally = (causes: readonly ToldCause[], of: 'units' | 'joins', isNamed: (name: string) => boolean) => {
  const named = { wear: 0, nothing: 0, unknown: 0 };
  const counted = { wear: 0, nothing: 0, unknown: 0 };
  let rest: Tells | 'unknown' = 'unknown';
  for (const { places, count, why } of causes) {
    const tells = why === undefined ? 'unknown' : TELLS[why];
    if (typeof places !== 'string') {
      const own = places.filter((name) => (readJoin(name) !== undefined) === (of === 'joins'));
      const here = own.filter(isNamed).length;
      named[tells] += here;
    } else if (places === of && count !== undefined) counted[tells] += count;
    else if (places === of) rest = tells;
  }
  return { named, counted, rest };
};

/** `named` of `all` are told one by one; what is told by number is spread over what is left of the whole quilt. */
const partsOf = ({ named, counted, rest }: ReturnType<typeof tally>, all: number, loose: number): Told => {
  const each = (of: Tells | 'unknown'): number => named[of] / Math.max(1, all);
  const left = Math.max(0, 1 - each('wear') - each('nothing') - each('unknown'));
  const told = counted.wear + counted.nothing + counted.unknown;
  const scale = 1 / Math.max(1, loose, told);
  const part = (of: Tells): number =>
    each(of) + left * (counted[of] * scale + (rest === of ? Math.max(0, 1 - told * scale) : 0));
  return { wear: part('wear'), nothing: part('nothing') };
};

const namedIn = ({ named }: ReturnType<typeof tally>): number => named.wear + named.nothing + named.unknown;

const isDamaged = ({ state }: UnitGroup): boolean => DAMAGED_STATES.has(state);

/** What is told of the damaged units of a group; of blocks of many fabrics the same holds for each of their cloths. */
export function toldOfUnits({ causes, groups }: SurveyedQuilt, group: UnitGroup): Told {
  if (causes === undefined || !isDamaged(group)) return NONE;
  const all = groups.filter(isDamaged).reduce((sum, { count }) => sum + count, 0);
  const at = new Set((isPlaced(group) ? group.where : group.among) ?? []);
  const every = tally(causes, 'units', () => true);
  // Where there is no map, places that are named are no more than their number.
  const own = at.size > 0 ? tally(causes, 'units', (name) => at.has(name)) : every;
  return partsOf(own, at.size > 0 ? at.size : all, all - namedIn(every));
}

/** What is told of the open joins, or of the one known by a key. */
export function toldOfJoins({ causes, joins }: SurveyedQuilt, key?: string): Told {
  const open = openJoins(joins);
  if (causes === undefined || open === 0) return NONE;
  const every = tally(causes, 'joins', () => true);
  if (key === undefined) return partsOf(every, open, open - namedIn(every));
  const own = tally(causes, 'joins', (name) => keyOf(name) === key);
  return partsOf(own, 1, open - namedIn(every));
}

const keyOf = (name: string): string | undefined => {
  const join = readJoin(name);
  return join && joinKey(join.a, join.b);
};

/** How many joins were found open. */
export const openJoins = ({ open, thread, cloth, allowance }: SurveyedJoins): number =>
  Math.max(open ?? 0, (thread ?? 0) + (cloth ?? 0) + (allowance ?? 0));
