import { type Action, GRADES, type UnitState } from '../casebook/scales.ts';
import { neighbours } from '../piecework/reading.ts';
import { boundsOf } from './bounds.ts';
import { atLeast, type Cloth, clothOf, isUncounted, type Taking } from './cloth.ts';
import type { Span } from './fact.ts';
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

/** Actions after which new cloth, or none, stands in the old one's place. */
const RENEWS: ReadonlySet<Action> = new Set(['replace', 'remove']);
export const isRenewed = ({ action }: Pick<Treated, 'action'>): boolean => RENEWS.has(action);

const COVERS: ReadonlySet<Action> = new Set(['replace', 'remove', 'patch_over']);
export const isCovered = ({ action }: Treated): boolean => COVERS.has(action);

const taking = (group: UnitGroup, taken: number, maybe: number): Taking => ({ group, taken, maybe });

/** As found: lost and missing units are no cloth; units not seen may be gone too. */
export const foundTaking = (group: UnitGroup, uncounted: boolean): Taking => {
  if (isGone(group)) return taking(group, group.share, 0);
  return taking(group, 0, group.state === 'unseen' && !uncounted ? group.share : 0);
};

export const foundCloth = (quilt: SurveyedQuilt): Cloth => {
  const uncounted = isUncounted(quilt);
  return clothOf(
    quilt,
    quilt.groups.map((group) => foundTaking(group, uncounted)),
  );
};

const gradeOf = (quilt: SurveyedQuilt, group: UnitGroup): Span => {
  const family = quilt.families[group.family ?? ''];
  if (family !== undefined) {
    const { lo, hi } = boundsOf(family.fragility);
    return group.state === 'worn' ? { lo: Math.max(WORN, lo), hi: Math.max(WORN, hi) } : { lo, hi };
  }
  const known = Object.values(quilt.families).map(({ fragility }) => boundsOf(fragility));
  if (known.length === 0) return { lo: 0, hi: GRADES.length - 1 };
  return { lo: Math.min(...known.map(({ lo }) => lo)), hi: Math.max(...known.map(({ hi }) => hi)) };
};

/** Whether stitches along a unit's edge would find sound or worn cloth there; undefined where it is not known. */
const holdsAnEdge = (quilt: SurveyedQuilt, beside: Treated): boolean | undefined => {
  if (isCovered(beside)) return true;
  if (isGone(beside.group)) return false;
  const { lo, hi } = gradeOf(quilt, beside.group);
  if (lo >= WEAK) return false;
  return hi <= WORN && beside.group.state !== 'unseen' ? true : undefined;
};

type Holding = (group: UnitGroup) => { readonly yes: number; readonly perhaps: number };

/**
 * A patch sewn over counts as sound cloth where all its neighbours hold its edge. Where positions are not known it
 * does if too little weak cloth would be left beside it to govern the top.
 */
const edgesOf = (quilt: SurveyedQuilt, actions: readonly Treated[], mark: number): Holding => {
  const at = new Map(
    actions.flatMap((treated) => (treated.group.where ?? []).map((where) => [where, treated])),
  );
  const judge = (position: string): boolean | undefined => {
    const beside = neighbours(quilt.piecework, position).flatMap((next) => at.get(next) ?? []);
    const held = beside.map((treated) => holdsAnEdge(quilt, treated));
    if (held.includes(false)) return false;
    return held.includes(undefined) ? undefined : true;
  };
  const uncounted = isUncounted(quilt);
  const left = atLeast(
    clothOf(
      quilt,
      actions.map((treated) =>
        isCovered(treated)
          ? taking(treated.group, treated.group.share, 0)
          : foundTaking(treated.group, uncounted),
      ),
    ),
    WEAK,
  );
  return ({ where, share }) => {
    if (where === undefined) return left.hi < mark ? { yes: share, perhaps: 0 } : { yes: 0, perhaps: share };
    const judged = where.map(judge);
    const part = (verdict: boolean | undefined) =>
      (share * judged.filter((each) => each === verdict).length) / where.length;
    return { yes: part(true), perhaps: part(undefined) };
  };
};

/**
 * As planned, for how strong the top will be: new cloth stands for units replaced and for patches whose edges hold.
 * `mark` is the share of the top from which cloth governs. Support and overlay change nothing of the cloth itself.
 */
export const plannedCloth = (quilt: SurveyedQuilt, actions: readonly Treated[], mark: number): Cloth => {
  const edges = edgesOf(quilt, actions, mark);
  const uncounted = isUncounted(quilt);
  return clothOf(
    quilt,
    actions.map(({ group, action }) => {
      const found = foundTaking(group, uncounted);
      if (RENEWS.has(action)) return taking(group, group.share, 0);
      if (action !== 'patch_over') return found;
      const { yes, perhaps } = edges(group);
      const taken = Math.max(found.taken, yes);
      return taking(group, taken, Math.min(group.share - taken, Math.max(found.maybe, perhaps)));
    }),
  );
};

/** As planned, for what will be seen: whatever is covered or replaced is out of sight. */
export const coveredCloth = (quilt: SurveyedQuilt, actions: readonly Treated[]): Cloth => {
  const uncounted = isUncounted(quilt);
  return clothOf(
    quilt,
    actions.map((treated) =>
      isCovered(treated)
        ? taking(treated.group, treated.group.share, 0)
        : foundTaking(treated.group, uncounted),
    ),
  );
};

/** As planned, for what stays in the quilt under whatever covers it: only what is taken out is gone. */
export const remainingCloth = (quilt: SurveyedQuilt, actions: readonly Treated[]): Cloth => {
  const uncounted = isUncounted(quilt);
  return clothOf(
    quilt,
    actions.map(({ group, action }) =>
      RENEWS.has(action) ? taking(group, group.share, 0) : foundTaking(group, uncounted),
    ),
  );
};
