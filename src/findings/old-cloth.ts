import { type Action, GRADES, type UnitState } from '../casebook/scales.ts';
import { neighbours } from '../piecework/reading.ts';
import { areaOf, areaWhere, type Part } from './area.ts';
import { boundsOf, type Span } from './fact.ts';
import { isPlaced } from './survey-groups.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** How much of a group is no longer old cloth that carries, being gone or to be replaced: parts of 1. */
type Removal = Part;

/** The old cloth of a top: of every group, how much of it is left. */
export interface Cloth {
  readonly quilt: SurveyedQuilt;
  readonly removals: readonly Removal[];
}

const WORST = GRADES.length - 1;
const WORN = GRADES.indexOf('worn');

/** Shares smaller than this are the dust of binary sums. */
const EPSILON = 1e-9;

/** Nobody counted or mapped anything: the cloth that was graded is then taken to be there. */
export const isUncounted = ({ groups }: SurveyedQuilt): boolean =>
  groups.every(({ where, state }) => where === undefined && (state === 'unseen' || state === 'lost')) &&
  groups.some(({ state }) => state === 'unseen');

/**
 * The grade of a group's cloth. A unit marked worn is at least worn, whatever its fabric's grade, and one that nobody has
 * seen may be. Cloth of no fabric that was surveyed may be of any grade.
 */
export const gradeOf = (quilt: SurveyedQuilt, { family, state }: UnitGroup): Span => {
  const { lo, hi } = boundsOf(quilt.families[family ?? '']?.fragility ?? { lo: 0, hi: WORST });
  if (state === 'worn') return { lo: Math.max(WORN, lo), hi: Math.max(WORN, hi) };
  return state === 'unseen' && !isUncounted(quilt) ? { lo, hi: Math.max(WORN, hi) } : { lo, hi };
};

/** Share of the top that is left of what is surely, and of what may be, of some kind. */
export const leftOf = (
  { quilt, removals }: Cloth,
  kind: (group: UnitGroup) => { readonly sure: boolean; readonly can: boolean },
): Span =>
  areaOf(
    quilt,
    removals.map(({ group, sure: taken, perhaps }) => {
      const { sure, can } = kind(group);
      const least = sure ? Math.max(0, 1 - taken - perhaps) : 0;
      return { group, sure: least, perhaps: can ? 1 - taken - least : 0 };
    }),
  );

/** Share of the top that is old cloth of this grade or worse. */
export const atLeast = (cloth: Cloth, grade: number): Span =>
  leftOf(cloth, (group) => {
    const { lo, hi } = gradeOf(cloth.quilt, group);
    return { sure: lo >= grade, can: hi >= grade };
  });

/** The worst grade of cloth that, with everything worse, makes up the given share of the top. */
export const governing = (cloth: Cloth, mark: number): Span => {
  const grades = GRADES.map((_, grade) => atLeast(cloth, grade));
  const worst = (bound: 'lo' | 'hi'): number =>
    Math.max(0, ...grades.flatMap((area, grade) => (area[bound] >= mark - EPSILON ? [grade] : [])));
  return { lo: worst('lo'), hi: worst('hi') };
};

/** The worst grade of any cloth left, however little. */
export const worstLeft = (cloth: Cloth): Span => governing(cloth, 2 * EPSILON);

/** Whether any of a fabric is left: undefined where it may or may not be. */
export const isLeft = (cloth: Cloth, letter: string): boolean | undefined => {
  const own = cloth.removals.filter(({ group }) => group.family === letter);
  const left = leftOf(cloth, ({ family }) => ({ sure: family === letter, can: family === letter }));
  if (left.hi <= EPSILON) return false;
  // A surveyed fabric whose share nobody stated is still there while nothing was taken that could be of it.
  const untouched = own.every(({ sure, perhaps }) => sure + perhaps <= EPSILON);
  return untouched || left.lo > EPSILON ? true : undefined;
};

/** What is to be done with one group of units: as much of a plan as findings need to know. */
export interface Treated {
  readonly group: UnitGroup;
  readonly action: Action;
}
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
const foundRemoval = (group: UnitGroup, uncounted: boolean): Removal => {
  if (isGone(group)) return { group, ...WHOLE };
  return { group, sure: 0, perhaps: group.state === 'unseen' && !uncounted ? 1 : 0 };
};

export const foundCloth = (quilt: SurveyedQuilt): Cloth => {
  const uncounted = isUncounted(quilt);
  return { quilt, removals: fabricsOf(quilt).map((group) => foundRemoval(group, uncounted)) };
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
    isCovered(treated) ? { group: treated.group, ...WHOLE } : foundRemoval(treated.group, uncounted),
  );
  const holes = actions.map((treated) => isGone(treated.group) && !isCovered(treated));
  const groups = actions.map(({ group }) => group);
  const spoiling =
    atLeast({ quilt, removals: besidePatches }, WEAK).hi +
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
    removals: actions.map(({ group, action }) => {
      const found = foundRemoval(group, uncounted);
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
    removals: actions.map(({ group, action }) =>
      RENEWS.has(action) ? { group, ...WHOLE } : foundRemoval(group, uncounted),
    ),
  };
};
