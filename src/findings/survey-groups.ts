import type { Survey } from '../casebook/model.ts';
import { rankOf } from '../casebook/positions.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import { apportion, type Cell, type Column, crossTabulate, type Row } from './cross-tabulate.ts';
import { boundsOf, type Span } from './fact.ts';
import type { SurveyedFamily, UnitGroup } from './surveyed.ts';

type Families = Readonly<Record<string, SurveyedFamily>>;
type Positions = readonly (readonly string[])[];

const STATES = Object.keys(UNIT_STATES) as readonly UnitState[];

/** What was seen of the units and their cloth: a survey without what it answers of the whole quilt. */
export type Looked = Omit<Survey, 'findings'>;

interface ToGroup {
  readonly survey: Looked;
  readonly families: Families;
  readonly positions: Positions;
  readonly total: number;
  /** How far stated shares may fall short of the whole. */
  readonly rounding: number;
  /** No unit is of several fabrics. */
  readonly oneFabric: boolean;
}

/**
 * Every unit in one group, by state and fabric. A map, counts, shares and losses by fabric are statements about the same
 * quilt: what they tell together stands, and what they leave open is shared out in one way, whoever reads it later.
 */
export const surveyGroups = ({
  survey,
  families,
  positions,
  total,
  rounding,
  oneFabric,
}: ToGroup): readonly UnitGroup[] => {
  const places = placesByState(survey, positions);
  if (places !== undefined && survey.family_map !== undefined)
    return byFurtherMarks(onBothMaps(survey, positions), survey, total);
  const rows = places === undefined ? countedRows(survey, total) : mappedRows(survey, places);
  const cells = crossTabulate(rows, columnsOf(families, total, rounding));
  const groups = STATES.flatMap((state) => {
    const own = cells.filter((cell) => cell.state === state);
    const among = places?.get(state);
    const lost = state === 'lost' ? lostBy(survey) : {};
    return oneFabric ? groupsOf(own, among, total) : mixedGroups(own, among, total, lost);
  });
  return byFurtherMarks(inOrder(groups), survey, total);
};

/**
 * Groups taken apart by what else was marked on their units, each unit still in one group. How many lost units each
 * fabric has is told of all of them together: where their places are only supposed, such a group stays whole.
 */
const byFurtherMarks = (
  groups: readonly UnitGroup[],
  { also = [] }: Looked,
  total: number,
): readonly UnitGroup[] => {
  if (also.length === 0) return groups;
  const marksAt = (at: string): string =>
    also
      .filter((mark) => mark.at === at)
      .map(({ state }) => state)
      .sort((a, b) => rankOf(a) - rankOf(b))
      .join(' ');
  return groups.flatMap((group) => {
    const { among, where = [] } = group;
    const sets = [...new Set((among ?? []).map(marksAt))].sort();
    if (among === undefined || (sets.length === 1 && sets[0] === '')) return [group];
    if (group.state === 'lost' && !isPlaced(group)) return [group];
    return sets.map((marks): UnitGroup => {
      const places = among.filter((at) => marksAt(at) === marks);
      const own = where.filter((at) => marksAt(at) === marks);
      const bounds = (whole: Pick<UnitGroup, 'least' | 'most'>) => ({
        least: Math.max(0, whole.least - (among.length - places.length) / total),
        most: Math.min(whole.most, places.length / total),
      });
      const part = group.count === 0 ? 0 : own.length / group.count;
      const further = marks === '' ? {} : { also: marks.split(' ') as UnitState[] };
      const cloth = group.cloth?.map((each) => ({
        ...each,
        ...further,
        ...bounds(each),
        share: each.share * part,
        among: places,
      }));
      return {
        ...group,
        ...further,
        ...bounds(group),
        count: own.length,
        share: group.share * part,
        where: own,
        among: places,
        ...(cloth === undefined ? {} : { cloth }),
      };
    });
  });
};

/** Places by state, where there is a map; what it leaves out nobody has seen. */
const placesByState = (
  { units }: Looked,
  positions: Positions,
): ReadonlyMap<UnitState, readonly string[]> | undefined => {
  if (units === undefined) return undefined;
  const places = new Map<UnitState, string[]>();
  positions.forEach((row, r) => {
    row.forEach((at, c) => {
      const state = units[r]?.[c] ?? 'unseen';
      places.set(state, [...(places.get(state) ?? []), at]);
    });
  });
  return places;
};

const onBothMaps = ({ units, family_map: fabrics }: Looked, positions: Positions): UnitGroup[] => {
  const groups = new Map<string, { state: UnitState; family: string | undefined; where: string[] }>();
  const total = positions.reduce((sum, row) => sum + row.length, 0);
  positions.forEach((row, r) => {
    row.forEach((at, c) => {
      const [state, family] = [units?.[r]?.[c] ?? 'unseen', fabrics?.[r]?.[c]];
      const key = `${state} ${family ?? ''}`;
      const group = groups.get(key) ?? { state, family, where: [] };
      group.where.push(at);
      groups.set(key, group);
    });
  });
  return inOrder(
    [...groups.values()].map(({ state, family, where }) => {
      const share = where.length / total;
      return { state, family, count: where.length, share, least: share, most: share, where, among: where };
    }),
  );
};

const lostBy = ({ families = {} }: Looked): Readonly<Record<string, number>> =>
  Object.fromEntries(
    Object.entries(families).flatMap(([letter, { lost }]) => (lost === undefined ? [] : [[letter, lost]])),
  );

const mappedRows = (
  survey: Looked,
  places: ReadonlyMap<UnitState, readonly string[]>,
): readonly Row<UnitState>[] =>
  [...places].map(([state, where]) => ({
    state,
    count: where.length,
    told: state === 'lost' ? lostBy(survey) : {},
  }));

/** What the counts do not name is sound; where nothing was counted, only what is told as lost has been seen. */
const countedRows = (survey: Looked, total: number): readonly Row<UnitState>[] => {
  const lost = lostBy(survey);
  const { counts } = survey;
  const told = Object.values(lost).reduce((sum, count) => sum + count, 0);
  const named: Partial<Record<UnitState, number>> =
    counts === undefined
      ? { lost: Math.min(told, total) }
      : Object.fromEntries(
          STATES.flatMap((state) => (state === 'sound' ? [] : [[state, counts[state] ?? 0]])),
        );
  const rest = total - Object.values(named).reduce((sum, count) => sum + count, 0);
  const rows: readonly (readonly [UnitState, number])[] = [
    ...(Object.entries(named) as [UnitState, number][]),
    [counts === undefined ? 'unseen' : 'sound', Math.max(0, rest)],
  ];
  return rows
    .filter(([, count]) => count > 0)
    .map(([state, count]) => ({ state, count, told: state === 'lost' ? lost : {} }));
};

/** How many units each fabric has. Where shares fall short of the whole, the rest is cloth of no fabric surveyed. */
const columnsOf = (families: Families, total: number, rounding: number): readonly Column[] => {
  const all = Object.values(families);
  const stated = all.map(({ share }) => boundsOf(share));
  const silent = stated.filter(({ lo, hi }) => lo !== hi).length;
  const sum = stated.reduce((whole, { lo, hi }) => whole + (lo === hi ? lo : 0), 0);
  const left = Math.max(0, 1 - sum);
  const rest = silent > 0 || (all.length > 0 && left <= Math.max(rounding, 0.5 / total)) ? 0 : left;
  const likely = apportion(total, [...stated.map(({ lo, hi }) => (lo === hi ? lo : left / silent)), rest]);
  const inUnits = ({ lo, hi }: Span, count: number): Span => ({
    lo: Math.min(count, Math.max(0, Math.floor(lo * total + 1e-9))),
    hi: Math.max(count, Math.ceil(hi * total - 1e-9)),
  });
  return [
    ...all.map(({ letter }, index): Column => {
      const count = likely[index] ?? 0;
      return { family: letter, likely: count, bounds: inUnits(stated[index] ?? { lo: 0, hi: 1 }, count) };
    }),
    {
      family: undefined,
      likely: likely[all.length] ?? 0,
      bounds: inUnits({ lo: rest, hi: rest === 0 && silent === 0 ? 0 : left }, likely[all.length] ?? 0),
    },
  ];
};

/** The groups of one state. On a map of states its places are known; which fabric lies where is supposed, evenly. */
const groupsOf = (
  cells: readonly Cell<UnitState>[],
  among: readonly string[] | undefined,
  total: number,
): readonly UnitGroup[] => {
  const possible = cells.filter(({ bounds }) => bounds.hi > 0);
  const where =
    among &&
    deal(
      among,
      possible.map(({ count }) => count),
    );
  return possible.map(({ state, family, count, bounds }, index) => ({
    state,
    family,
    count,
    share: count / total,
    least: bounds.lo / total,
    most: bounds.hi / total,
    where: where?.[index],
    among,
  }));
};

/**
 * The same where a unit is a block of many fabrics: whole blocks are of one fabric only where somebody counted them so,
 * and the rest is one group, whose cloth lies within what the fabrics' shares allow.
 */
const mixedGroups = (
  cells: readonly Cell<UnitState>[],
  among: readonly string[] | undefined,
  total: number,
  lost: Readonly<Record<string, number>>,
): readonly UnitGroup[] => {
  const isTold = ({ family }: Cell<UnitState>): boolean => (lost[family ?? ''] ?? 0) > 0;
  const mixed = cells.filter((cell) => !isTold(cell));
  const [first] = mixed;
  if (first === undefined) return groupsOf(cells, among, total);
  const count = mixed.reduce((sum, cell) => sum + cell.count, 0);
  const rest = { state: first.state, family: undefined, count, bounds: { lo: count, hi: count } };
  const cloth = groupsOf(mixed, undefined, total).map((group) => ({ ...group, among }));
  return groupsOf([...cells.filter(isTold), rest], among, total).map((group) =>
    group.family === undefined ? { ...group, cloth } : group,
  );
};

/** Deals places out to as many hands as there are counts, each spread over all of them. */
const deal = (places: readonly string[], counts: readonly number[]): readonly (readonly string[])[] => {
  const hands = counts.map((): string[] => []);
  places.forEach((at, dealt) => {
    const behind = counts.map(
      (count, hand) => (count * (dealt + 1)) / places.length - (hands[hand]?.length ?? 0),
    );
    const open = behind.map((gap, hand) =>
      (hands[hand]?.length ?? 0) < (counts[hand] ?? 0) ? gap : -Infinity,
    );
    hands[open.indexOf(Math.max(...open))]?.push(at);
  });
  return hands;
};

/** Whether a group's places are known, and not supposed among those of its state. */
export const isPlaced = ({ where, among }: UnitGroup): boolean =>
  where !== undefined && where.length === among?.length;

/** Whether two groups bear the same marks, so that they share their places where no map tells the fabrics apart. */
export const isAlike = (one: UnitGroup, other: UnitGroup): boolean =>
  one.state === other.state && String(one.also ?? '') === String(other.also ?? '');

/** Whether units of a group bear a mark, as their gravest or besides. */
export const bears = ({ state, also = [] }: UnitGroup, mark: UnitState): boolean =>
  state === mark || also.includes(mark);

/** Whether somebody noted how much of a state is of this fabric, and nothing had to be supposed. */
export const isTold = ({ least, most }: UnitGroup): boolean => least === most;

/** By state, then by family, unknown families last: the same survey always gives the same order. */
const inOrder = (groups: readonly UnitGroup[]): UnitGroup[] =>
  [...groups].sort(
    (a, b) =>
      STATES.indexOf(a.state) - STATES.indexOf(b.state) || ((a.family ?? '~') < (b.family ?? '~') ? -1 : 1),
  );
