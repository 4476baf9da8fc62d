import type { Counts, Survey } from '../casebook/model.ts';
import { UNIT_STATES, type UnitState } from '../casebook/scales.ts';
import { apportion } from './apportion.ts';
import { highest, lowest } from './fact.ts';
import type { SurveyedFamily, UnitGroup } from './surveyed.ts';

type Families = Readonly<Record<string, SurveyedFamily>>;
type Positions = readonly (readonly string[])[];

const STATES = Object.keys(UNIT_STATES) as readonly UnitState[];

/**
 * Every unit in one group, by state and family: from the map where there is one, else from the counts, else not
 * seen. `rounding` is how far stated shares may fall short of the whole. Which family a counted piece belongs to is taken from the families' own counts and shares as far as they go.
 */
export const surveyGroups = (
  survey: Survey,
  families: Families,
  positions: Positions,
  total: number,
  rounding: number,
): readonly UnitGroup[] => {
  const only = onlyOne(families, rounding);
  if (survey.units !== undefined) return fromMap(survey, families, positions, only);
  if (survey.counts !== undefined) return fromCounts(survey.counts, survey, families, only);
  return uncounted(survey, families, total);
};

const fromMap = (
  survey: Survey,
  families: Families,
  positions: Positions,
  only: string | undefined,
): UnitGroup[] => {
  const all = positions.flatMap((row, r) =>
    row.map((at, c) => ({
      at,
      state: survey.units?.[r]?.[c] ?? ('unseen' as const),
      family: survey.family_map?.[r]?.[c] ?? only,
    })),
  );
  const groups = new Map<string, { state: UnitState; family: string | undefined; where: string[] }>();
  for (const { at, state, family } of all) {
    const key = `${STATES.indexOf(state)} ${family ?? ''}`;
    const group = groups.get(key) ?? { state, family, where: [] };
    group.where.push(at);
    groups.set(key, group);
  }
  const drawn = [...groups.values()].map(({ state, family, where }) => ({
    state,
    family,
    count: where.length,
    share: where.length / all.length,
    where,
  }));
  return inOrder(survey.family_map === undefined ? withLost(drawn, survey, families, only) : drawn);
};

/** On a map without families their counts of lost pieces still tell whose they are: positions only if all are one's. */
const withLost = (
  groups: readonly UnitGroup[],
  survey: Survey,
  families: Families,
  only: string | undefined,
): UnitGroup[] =>
  groups.flatMap((group) => {
    if (group.state !== 'lost' || group.family !== undefined) return [group];
    const share = group.share / group.count;
    const split = lostByFamily(group.count, survey, families, only);
    return split.map(
      ({ family, count }): UnitGroup => ({
        state: 'lost',
        family,
        count,
        share: share * count,
        where: split.length === 1 ? group.where : undefined,
      }),
    );
  });

const fromCounts = (
  counts: Counts,
  survey: Survey,
  families: Families,
  only: string | undefined,
): UnitGroup[] => {
  const made = (state: UnitState, family: string | undefined, count: number): UnitGroup => ({
    state,
    family,
    count,
    share: count / counts.of,
    where: undefined,
  });
  const named = STATES.flatMap((state) => {
    const count = state === 'sound' ? 0 : (counts[state] ?? 0);
    if (count === 0) return [];
    if (state !== 'lost') return [made(state, only, count)];
    return lostByFamily(count, survey, families, only).map((part) => made('lost', part.family, part.count));
  });
  const sound = counts.of - named.reduce((sum, { count }) => sum + count, 0);
  return inOrder([...named, ...soundByFamily(sound, counts.of, named, families, made)]);
};

/** Sound pieces follow the families' shares of what is still there; what no share covers has no family. */
const soundByFamily = (
  sound: number,
  of: number,
  named: readonly UnitGroup[],
  families: Families,
  made: (state: UnitState, family: string | undefined, count: number) => UnitGroup,
): UnitGroup[] => {
  const letters = Object.keys(families);
  const weights = letters.map((letter) => {
    const share = families[letter]?.share ?? 0;
    if (typeof share !== 'number') return 0;
    const gone = named.reduce((sum, group) => sum + (group.family === letter ? group.count : 0), 0);
    return Math.max(0, share * of - gone);
  });
  const stated = letters.reduce((sum, letter) => {
    const share = families[letter]?.share ?? 0;
    return sum + (typeof share === 'number' ? share : 0);
  }, 0);
  const rest = Math.max(0, 1 - stated) * of;
  const parts = apportion(Math.max(0, sound), [...weights, rest < 0.5 && stated > 0 ? 0 : rest]);
  return parts.flatMap((count, index) => (count > 0 ? [made('sound', letters[index], count)] : []));
};

const uncounted = (survey: Survey, families: Families, total: number): UnitGroup[] => {
  const made = (state: UnitState, family: string | undefined, share: number): UnitGroup => ({
    state,
    family,
    count: Math.round(share * total),
    share,
    where: undefined,
  });
  const known = Object.values(families).flatMap(({ letter, share }) => {
    if (lowest(share) !== highest(share)) return [];
    const lost = Math.min(lowest(share), (survey.families?.[letter]?.lost ?? 0) / total);
    return [made('lost', letter, lost), made('unseen', letter, lowest(share) - lost)];
  });
  const rest = 1 - known.reduce((sum, { share }) => sum + share, 0);
  const groups = [...known, made('unseen', undefined, rest > 1e-9 ? rest : 0)].filter(
    ({ share }) => share > 0,
  );
  const counts = apportion(
    total,
    groups.map(({ share }) => share),
  );
  return inOrder(groups.map((group, index) => ({ ...group, count: counts[index] ?? 0 })));
};

/** The family of every unit, where there is but one and it is the whole top. */
const onlyOne = (families: Families, rounding: number): string | undefined => {
  const [family, another] = Object.values(families);
  const whole = family !== undefined && another === undefined && lowest(family.share) >= 1 - rounding;
  return whole ? family.letter : undefined;
};

/** Lost pieces family by family; more than were counted is cut back, fewer leaves a remainder of no family. */
const lostByFamily = (
  count: number,
  survey: Survey,
  families: Families,
  only: string | undefined,
): readonly { readonly family: string | undefined; readonly count: number }[] => {
  if (only !== undefined) return [{ family: only, count }];
  let left = count;
  const parts: { family: string | undefined; count: number }[] = [];
  for (const family of Object.keys(families)) {
    const lost = Math.min(left, survey.families?.[family]?.lost ?? 0);
    if (lost > 0) parts.push({ family, count: lost });
    left -= lost;
  }
  if (left > 0) parts.push({ family: undefined, count: left });
  return parts;
};

/** By state, then by family, unknown families last: the same survey always gives the same order. */
const inOrder = (groups: readonly UnitGroup[]): UnitGroup[] =>
  [...groups].sort(
    (a, b) =>
      STATES.indexOf(a.state) - STATES.indexOf(b.state) || ((a.family ?? '~') < (b.family ?? '~') ? -1 : 1),
  );
