import { GRADES, type UnitState } from '../casebook/scales.ts';
import { clopperPearson } from '../statistics/intervals.ts';
import { areaWhere } from './area.ts';
import { boundsOf, type Fact, type Span, shareBetween } from './fact.ts';
import type { Treated } from './old-cloth.ts';
import { isPlaced } from './survey-groups.ts';
import type { SurveyedJoins, SurveyedQuilt, UnitGroup } from './surveyed.ts';

type Cause = 'cloth' | 'allowance';

/** How many open seams have a cause, within what the other causes leave. */
const countOf = (joins: SurveyedJoins, cause: Cause): Span | undefined => {
  if (joins.open === undefined) return undefined;
  const stated = joins[cause];
  if (stated !== undefined) return { lo: stated, hi: stated };
  const others = [joins.thread, joins.cloth, joins.allowance].reduce<number>(
    (sum, count) => sum + (count ?? 0),
    0,
  );
  return { lo: 0, hi: Math.max(0, joins.open - others) };
};

const over = (count: Span | undefined, of: number | undefined): Fact => {
  if (count === undefined || of === undefined) return undefined;
  // Where nothing has opened, nothing has opened for this cause either.
  return of === 0 ? (count.hi === 0 ? 0 : undefined) : shareBetween(count.lo / of, count.hi / of);
};

/** What has no seams has none that opened. */
const NONE_OPEN: Readonly<Record<string, Fact>> = {
  join_failure: 0,
  join_failure_low: 0,
  join_failure_high: 0,
  cloth_share_of_failures: 0,
  cloth_joins_of_seen: 0,
  allowance_gone_share: 0,
};

/** Seam failure as found: its rate, its exact interval at the given confidence, and its causes. */
export const joinFacts = (joins: SurveyedJoins, confidence: number): Readonly<Record<string, Fact>> => {
  const { open, inspected, total } = joins;
  if (total === 0 && open === 0) return NONE_OPEN;
  const rated = open !== undefined && inspected !== undefined && inspected > 0 && open <= inspected;
  const interval = rated ? clopperPearson(open, inspected, confidence) : undefined;
  return {
    join_failure: rated ? open / inspected : undefined,
    join_failure_low: interval?.low,
    join_failure_high: interval?.high,
    cloth_share_of_failures: over(countOf(joins, 'cloth'), open),
    cloth_joins_of_seen: over(countOf(joins, 'cloth'), inspected),
    allowance_gone_share: over(countOf(joins, 'allowance'), open),
  };
};

const WEAK = GRADES.indexOf('weak');
const DAMAGED: ReadonlySet<UnitState> = new Set(['edge', 'split', 'hole', 'lost', 'missing']);

/** Cloth gives way at a seam where it is damaged or weak. */
const givesWay = (
  quilt: SurveyedQuilt,
  group: UnitGroup,
): { readonly sure: boolean; readonly can: boolean } => {
  if (DAMAGED.has(group.state)) return { sure: true, can: true };
  const family = quilt.families[group.family ?? ''];
  if (family === undefined) return { sure: false, can: true };
  const { lo, hi } = boundsOf(family.fragility);
  return { sure: lo >= WEAK, can: hi >= WEAK || group.state === 'unseen' };
};

/** Share of the seams of one cause that lie under a patch sewn over, judged by how much of such cloth is patched. */
const underPatches = (quilt: SurveyedQuilt, actions: readonly Treated[]): Span => {
  const groups = actions.map(({ group }) => group);
  const area = (wanted: (treated: Treated) => boolean): Span =>
    areaWhere(quilt, groups, (_, index) => {
      const treated = actions[index];
      return treated !== undefined && wanted(treated);
    });
  const patched = area(({ group, action }) => action === 'patch_over' && givesWay(quilt, group).sure);
  const sure = area(({ group }) => givesWay(quilt, group).sure);
  const other = area(
    ({ group, action }) =>
      action !== 'patch_over' && !givesWay(quilt, group).sure && givesWay(quilt, group).can,
  );
  if (patched.hi === 0) return { lo: 0, hi: 0 };
  const most = sure.lo === 0 ? 1 : Math.min(1, patched.hi / sure.lo);
  return { lo: Math.min(most, patched.lo / (sure.hi + other.hi)), hi: most };
};

/** Open seams of a cause that no patch covers: by position where each was listed, else in proportion. */
const leftOpen = (quilt: SurveyedQuilt, actions: readonly Treated[], cause: Cause): Span | undefined => {
  const count = countOf(quilt.joins, cause);
  if (count === undefined) return undefined;
  const { openAt, open } = quilt.joins;
  const patches = actions.filter(({ action }) => action === 'patch_over');
  const patched = new Set(patches.flatMap(({ group }) => group.where ?? []));
  const located =
    openAt.length > 0 && openAt.length === open && openAt.every((join) => join.cause !== undefined);
  if (located && count.lo === count.hi && patches.every(({ group }) => isPlaced(group))) {
    const covered = openAt.filter(
      (join) => join.cause === cause && (patched.has(join.a) || patched.has(join.b)),
    );
    const left = Math.max(0, count.lo - covered.length);
    return { lo: left, hi: left };
  }
  const under = underPatches(quilt, actions);
  return { lo: count.lo * (1 - under.hi), hi: count.hi * (1 - under.lo) };
};

/** Causes of seam failure as planned: seams under a patch sewn over count as treated. */
export const plannedJoinFacts = (
  quilt: SurveyedQuilt,
  actions: readonly Treated[],
): Readonly<Record<string, Fact>> => {
  const { open, inspected } = quilt.joins;
  const cloth = leftOpen(quilt, actions, 'cloth');
  return {
    cloth_share_of_failures: over(cloth, open),
    cloth_joins_of_seen: over(cloth, inspected),
    allowance_gone_share: over(leftOpen(quilt, actions, 'allowance'), open),
  };
};
