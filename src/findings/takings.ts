import { type Action, GRADES, type UnitState } from '../casebook/scales.ts';
import { neighbours } from '../piecework/reading.ts';
import { areaWhere } from './area.ts';
import { atLeast, type Cloth, gradeOf, isUncounted, type Taking } from './cloth.ts';
import { isPlaced } from './survey-groups.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** What is to be done with one group of units: as much of a plan as findings need to know. */
export interface Treated {
  readonly group: UnitGroup;
  readonly action: Action;
}

const WORN = GRADES.indexOf('worn');
const WEAK = GRADES.indexOf('weak');

const GONE: ReadonlySet<UnitState> = new Set(['lost', 'missing']);
export const isGone = ({ state }: UnitGroup): boolean => GONE.has(state);

/** What is done with each fabric, blocks of many fabrics taken apart. */
export const clothIn = (actions: readonly Treated[]): readonly Treated[] =>
  actions.flatMap(({ group, action }) => (group.cloth ?? [group]).map((cloth) => ({ group: cloth, action })));

/** The groups of a quilt, blocks of many fabrics taken apart. */
export const fabricsOf = ({ groups }: SurveyedQuilt): readonly UnitGroup[] =>
  groups.flatMap((group) => group.cloth ?? [group]);

/** Actions after which new cloth, or none, stands in the old one's place. */
const RENEWS: ReadonlySet<Action> = new Set(['replace', 'remove']);
export const isRenewed = ({ action }: Pick<Treated, 'action'>): boolean => RENEWS.has(action);

const COVERS: ReadonlySet<Action> = new Set(['replace', 'remove', 'patch_over']);
export const isCovered = ({ action }: Treated): boolean => COVERS.has(action);

const WHOLE = { sure: 1, perhaps: 0 } as const;

/** As found: lost and missing units are no cloth; units not seen may be gone too. */
export const foundTaking = (group: UnitGroup, uncounted: boolean): Taking => {
  if (isGone(group)) return { group, ...WHOLE };
  return { group, sure: 0, perhaps: group.state === 'unseen' && !uncounted ? 1 : 0 };
};

export const foundCloth = (quilt: SurveyedQuilt): Cloth => {
  const uncounted = isUncounted(quilt);
  return { quilt, takings: fabricsOf(quilt).map((group) => foundTaking(group, uncounted)) };
};

/** Whether stitches along a unit's edge would find sound or worn cloth there; undefined where it is not known. */
const holdsAnEdge = (quilt: SurveyedQuilt, beside: Treated): boolean | undefined => {
  if (isCovered(beside)) return true;
  if (isGone(beside.group)) return false;
  const { lo, hi } = gradeOf(quilt, beside.group);
  if (lo >= WEAK) return false;
  return hi <= WORN && beside.group.state !== 'unseen' ? true : undefined;
};

/** A hexagon has six; squares and blocks have four. */
const MOST_NEIGHBOURS = 6;

/** How much of a group holds the edge of a patch: parts of 1. */
type Holding = (group: UnitGroup) => { readonly yes: number; readonly perhaps: number };

/**
 * A patch sewn over counts as sound cloth where all its neighbours hold its edge, whichever of the fabrics that may lie
 * there does. Where positions are not known, every weak or empty place left may spoil the edges of all its neighbours.
 */
const edgesOf = (quilt: SurveyedQuilt, actions: readonly Treated[]): Holding => {
  const at = new Map<string, Treated[]>();
  for (const treated of actions)
    for (const place of (isPlaced(treated.group) ? treated.group.where : treated.group.among) ?? [])
      at.set(place, [...(at.get(place) ?? []), treated]);
  const judge = (position: string): boolean | undefined => {
    const held = neighbours(quilt.piecework, position).map((next) => {
      const may = (at.get(next) ?? []).map((treated) => holdsAnEdge(quilt, treated));
      return may.every((each) => each === may[0]) ? (may.length === 0 ? true : may[0]) : undefined;
    });
    if (held.includes(false)) return false;
    return held.includes(undefined) ? undefined : true;
  };
  const uncounted = isUncounted(quilt);
  const besidePatches = actions.map((treated) =>
    isCovered(treated) ? { group: treated.group, ...WHOLE } : foundTaking(treated.group, uncounted),
  );
  const holes = actions.map((treated) => isGone(treated.group) && !isCovered(treated));
  const groups = actions.map(({ group }) => group);
  const spoiling =
    atLeast({ quilt, takings: besidePatches }, WEAK).hi +
    areaWhere(quilt, groups, (_, index) => holes[index] === true).hi;
  return (group) => {
    const places = isPlaced(group) ? group.where : group.among;
    if (places === undefined) {
      const beside = group.least <= 0 ? 1 : Math.min(1, (MOST_NEIGHBOURS * spoiling) / group.least);
      return { yes: 1 - beside, perhaps: beside };
    }
    const judged = places.map(judge);
    const part = (verdict: boolean | undefined) =>
      judged.filter((each) => each === verdict).length / Math.max(1, places.length);
    if (isPlaced(group)) return { yes: part(true), perhaps: part(undefined) };
    if (part(true) === 1) return { yes: 1, perhaps: 0 };
    return { yes: 0, perhaps: part(false) === 1 ? 0 : 1 };
  };
};

/**
 * As planned, for how strong the top will be: new cloth stands for units replaced and for patches whose edges hold.
 * Support and overlay change nothing of the cloth itself.
 */
export const plannedCloth = (quilt: SurveyedQuilt, actions: readonly Treated[]): Cloth => {
  const edges = edgesOf(quilt, actions);
  const uncounted = isUncounted(quilt);
  return {
    quilt,
    takings: actions.map(({ group, action }) => {
      const found = foundTaking(group, uncounted);
      if (RENEWS.has(action)) return { group, ...WHOLE };
      if (action !== 'patch_over') return found;
      const { yes, perhaps } = edges(group);
      const sure = Math.max(found.sure, yes);
      return { group, sure, perhaps: Math.min(1 - sure, Math.max(found.perhaps, perhaps)) };
    }),
  };
};

/** As planned, for what stays in the quilt under whatever covers it: only what is taken out is gone. */
export const remainingCloth = (quilt: SurveyedQuilt, actions: readonly Treated[]): Cloth => {
  const uncounted = isUncounted(quilt);
  return {
    quilt,
    takings: actions.map(({ group, action }) =>
      RENEWS.has(action) ? { group, ...WHOLE } : foundTaking(group, uncounted),
    ),
  };
};
