import type { Problem } from '../../problems/problem.ts';
import type { LayoutSpec, Survey, ToldCause } from '../model.ts';
import { joinKey, positionName, readJoin, rowName } from '../positions.ts';
import { DAMAGED_STATES, type UnitState } from '../scales.ts';
import { type Check, type CheckContext, type Look, looks } from './check.ts';
import { joinFault, unitFault } from './places.ts';

const error = { code: 'sum-mismatch', severity: 'error' } as const;
const WHY = 'An accident says nothing of how long the rest will last, so the years would be wrong.';

type Known = { readonly [K in 'units' | 'counts' | 'joins' | 'families']?: Survey[K] | undefined };

/** One look, and all that was told of the quilt up to it: what its causes speak of may stand in an earlier one. */
interface Told extends Look {
  readonly known: Known;
}

const toldBy = (context: CheckContext): Told[] => {
  let known: Known = {};
  return looks(context).map((look) => {
    const { units, counts, ...kept } = known;
    const { survey } = look;
    // A count and a map say the same thing in two ways: the later one holds alone.
    const states = survey.units || survey.counts ? survey : { units, counts };
    known = {
      units: states.units,
      counts: states.counts,
      joins: survey.joins ?? kept.joins,
      families: survey.families ?? kept.families,
    };
    return { ...look, known };
  });
};

const damagedIn = ({ units, counts, families = {} }: Known): number => {
  const states = [...DAMAGED_STATES];
  const mapped = units?.flat().filter((state) => states.includes(state)).length;
  const told =
    counts && states.reduce((sum, state) => sum + (state === 'sound' ? 0 : (counts[state] ?? 0)), 0);
  const lost = Object.values(families).reduce((sum, family) => sum + (family.lost ?? 0), 0);
  // On a survey grid the map shows cells, and counts are of patches.
  return mapped === undefined && told === undefined ? lost : Math.max(mapped ?? 0, told ?? 0);
};

const openIn = ({ joins }: Known): number =>
  joins?.open ?? (joins?.thread ?? 0) + (joins?.cloth ?? 0) + (joins?.allowance ?? 0);

const stateAt = (units: NonNullable<Survey['units']>, name: string): UnitState | undefined => {
  const [, letters, digits] = /^([A-Z]+)(\d+)$/.exec(name) ?? [];
  return units.find((_, row) => rowName(row) === letters)?.[Number(digits) - 1];
};

/** What is wrong with one place of a cause, if anything. */
const placeFault = (name: string, layout: LayoutSpec | undefined, known: Known): Fault | undefined => {
  const join = readJoin(name);
  if (join !== undefined) {
    const [a, b] = [positionName(join.a), positionName(join.b)];
    const fault = layout && joinFault(layout, a, b, join.sign);
    const listed = known.joins?.open_at;
    if (fault !== undefined || listed === undefined) return fault;
    if (listed.some(({ between }) => joinKey(...between) === joinKey(a, b))) return undefined;
    const what = `the join ${name} is not among the open ones, yet a cause is given for it`;
    return { ...error, what, why: WHY, cure: 'Add it under open_at, or take it out here.' };
  }
  const fault = unitFault(layout, name);
  const state = known.units && stateAt(known.units, name);
  if (fault !== undefined || state === undefined || DAMAGED_STATES.has(state)) return fault;
  const what = `${name} is ${state === 'unseen' ? 'not seen' : state} on the map, yet a cause of loss is given for it`;
  return { ...error, what, why: WHY, cure: `Correct the map, or take ${name} out here.` };
};

type Fault = Omit<Problem, 'place'>;

const isJoin = (name: string): boolean => readJoin(name) !== undefined;

/** How many of units or joins a cause speaks of; all that are left where it says no number. */
const counted = ({ places, count }: ToldCause, of: 'units' | 'joins'): number => {
  if (typeof places === 'string') return places === of ? (count ?? 0) : 0;
  return places.filter((name) => isJoin(name) === (of === 'joins')).length;
};

const oneLook = ({ source }: CheckContext, { path, survey, layout, known }: Told): Problem[] => {
  const causes = survey.causes ?? [];
  const problems: Problem[] = [];
  const before = new Set<string>();
  for (const [index, { places, count }] of causes.entries()) {
    const at = [...path, 'causes', index, 'places'];
    const whole = typeof places === 'string';
    if (!whole && count !== undefined) {
      const what = `places are named one by one, and count says ${count} as well`;
      const cure = 'Take count out; or write places: units or places: joins, and how many of them.';
      problems.push({ ...error, what, cure, place: source.place([...path, 'causes', index, 'count']) });
    }
    for (const [nth, name] of (whole ? [] : places).entries()) {
      const join = readJoin(name);
      const key = join === undefined ? name : joinKey(join.a, join.b);
      const twice = { ...error, what: `the cause of ${name} is given twice`, cure: 'Keep one of them.' };
      const fault = before.has(key) ? twice : placeFault(name, layout, known);
      before.add(key);
      const place = source.place([...at, nth]);
      if (fault !== undefined) problems.push({ ...fault, place });
    }
  }
  for (const [of, there, words] of [
    ['units', damagedIn(known), 'units are lost or damaged'],
    ['joins', openIn(known), 'joins are open'],
  ] as const) {
    const sum = causes.reduce((all, cause) => all + counted(cause, of), 0);
    const any = causes.some(({ places }) => places === of);
    if (sum <= there && !(any && there === 0)) continue;
    const what =
      sum > there
        ? `causes are given for ${sum} ${of}, but only ${there} ${words}`
        : `no ${words}, yet a cause is given`;
    const cure = 'Count again and correct one of them.';
    problems.push({ ...error, what, why: WHY, cure, place: source.place([...path, 'causes'], 'key') });
  }
  return problems;
};

/** Why something was lost, against what was lost. */
export const checkCauses: Check = (context) => toldBy(context).flatMap((look) => oneLook(context, look));
