import { type Action, GRADES, type UnitState } from '../casebook/scales.ts';
import type { Piecework, Unit } from '../piecework/model.ts';
import { areaOf, areaWhere } from './area.ts';
import { boundsOf, type Fact, type Span, shareBetween } from './fact.ts';
import { fabricsOf, gradeOf, isCovered, isDone, isGone, isUncounted, type Treated } from './old-cloth.ts';
import { bears } from './survey-groups.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

const FAILING = GRADES.length - 1;

/**
 * Loss by area and by count, of what is left to see once the actions are carried out. Lost, missing and failing units are
 * loss; units not seen and grades not known widen it. Where nobody counted units, the cloth that was graded is there.
 */
export const lossFacts = (
  quilt: SurveyedQuilt,
  actions: readonly Treated[],
): Readonly<Record<string, Fact>> => {
  const lossWhere = (unseenMayBe: boolean): Fact => {
    const { lo, hi } = areaOf(
      quilt,
      actions.map((treated) => {
        const { group } = treated;
        const grade = gradeOf(quilt, group);
        const sure = !isCovered(treated) && (isGone(group) || grade.lo === FAILING);
        const can = grade.hi === FAILING || (unseenMayBe && group.state === 'unseen');
        return { group, sure: sure ? 1 : 0, perhaps: !sure && !isCovered(treated) && can ? 1 : 0 };
      }),
    );
    return shareBetween(lo, hi);
  };
  return { loss: lossWhere(!isUncounted(quilt)), loss_by_count: lossWhere(true) };
};

/** The share lost of the family worst hit, each family's loss being a share of its own area. */
export const worstFamilyLoss = (quilt: SurveyedQuilt): Fact => {
  const losses = Object.values(quilt.families).map(({ letter, fragility, share }): Span => {
    const whole = boundsOf(share);
    const grade = boundsOf(fragility);
    const area = (wanted: (group: UnitGroup) => boolean): Span => areaWhere(quilt, fabricsOf(quilt), wanted);
    const own = area((group) => group.family === letter && isGone(group));
    const perhaps = area(
      (group) =>
        (group.family === letter || group.family === undefined) &&
        (isGone(group) || group.state === 'unseen'),
    );
    // A family on the list that has no place on the map has nothing to lose.
    if (whole.hi <= 0) return { lo: 0, hi: 0 };
    return {
      lo: grade.lo === FAILING ? 1 : Math.min(1, own.lo / whole.hi),
      hi: grade.hi === FAILING || whole.lo <= 0 ? 1 : Math.min(1, perhaps.hi / whole.lo),
    };
  });
  if (losses.length === 0) return undefined;
  return shareBetween(Math.max(...losses.map(({ lo }) => lo)), Math.max(...losses.map(({ hi }) => hi)));
};

interface StateFinding {
  readonly state: UnitState;
  /** What puts it right; empty for what no treatment undoes, which is then only a finding as found. */
  readonly mendedBy: readonly Action[];
}

/** Findings that say how much of the top is in one state. */
const STATE_FINDINGS: Readonly<Record<string, StateFinding>> = {
  edge_share: {
    state: 'edge',
    mendedBy: ['restitch', 'support', 'overlay', 'patch_over', 'replace', 'remove'],
  },
  split_share: { state: 'split', mendedBy: ['support', 'overlay', 'patch_over', 'replace', 'remove'] },
  hole_share: { state: 'hole', mendedBy: ['patch_over', 'replace', 'remove'] },
  flattened_share: { state: 'flattened', mendedBy: ['restuff', 'replace', 'remove'] },
  stained_share: { state: 'stained', mendedBy: [] },
  bled_share: { state: 'bled', mendedBy: [] },
  earlier_repairs: { state: 'repaired', mendedBy: [] },
};

/** Shares of the top by state; units not seen may be in any. */
export const stateFacts = (
  quilt: SurveyedQuilt,
  actions: readonly Treated[],
): Readonly<Record<string, Fact>> => {
  const groups = actions.map(({ group }) => group);
  const unseen = areaWhere(quilt, groups, ({ state }) => state === 'unseen').hi;
  return Object.fromEntries(
    Object.entries(STATE_FINDINGS).map(([id, { state, mendedBy }]) => {
      const left = areaWhere(quilt, groups, (group, index) => {
        const treated = actions[index];
        return bears(group, state) && !mendedBy.some((action) => isDone(treated, action));
      });
      return [id, shareBetween(left.lo, left.hi + unseen)];
    }),
  );
};

/** Share of the top nobody has looked at. */
export const unseenShare = (quilt: SurveyedQuilt): Fact => {
  const { lo, hi } = areaWhere(quilt, fabricsOf(quilt), ({ state }) => state === 'unseen');
  return shareBetween(lo, hi);
};

/** Inches: coordinates this close are the same edge. */
const NEAR = 1e-6;

const extentOf = ({ at, outline }: Unit) => ({
  at,
  left: Math.min(...outline.map(({ x }) => x)),
  right: Math.max(...outline.map(({ x }) => x)),
  top: Math.min(...outline.map(({ y }) => y)),
  bottom: Math.max(...outline.map(({ y }) => y)),
});

/** Names of the whole units in the outermost rows. */
const outerUnits = ({ units }: Piecework): ReadonlySet<string> => {
  const whole = units.filter(({ part }) => part === 'whole').map(extentOf);
  const edge = {
    left: Math.min(...whole.map(({ left }) => left)),
    right: Math.max(...whole.map(({ right }) => right)),
    top: Math.min(...whole.map(({ top }) => top)),
    bottom: Math.max(...whole.map(({ bottom }) => bottom)),
  };
  const near = (a: number, b: number): boolean => Math.abs(a - b) < NEAR;
  const outer = whole.filter(
    (unit) =>
      near(unit.left, edge.left) ||
      near(unit.right, edge.right) ||
      near(unit.top, edge.top) ||
      near(unit.bottom, edge.bottom),
  );
  return new Set(outer.map(({ at }) => at));
};

/** From a map: whether whatever is gone or holed lies in the outermost rows only. Unknown without a map. */
export const lossInOuterRowsOnly = (quilt: SurveyedQuilt): Fact => {
  if (quilt.groups.some(({ where }) => where === undefined)) return undefined;
  const outer = outerUnits(quilt.piecework);
  const places = (wanted: (group: UnitGroup) => boolean) =>
    quilt.groups.filter(wanted).flatMap(({ where }) => where ?? []);
  const damaged = places((group) => isGone(group) || group.state === 'hole');
  if (damaged.some((at) => !outer.has(at))) return false;
  const unseen = places(({ state }) => state === 'unseen');
  if (unseen.some((at) => !outer.has(at))) return undefined;
  if (damaged.length > 0) return true;
  return unseen.length > 0 ? undefined : false;
};
