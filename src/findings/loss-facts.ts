import { GRADES } from '../casebook/scales.ts';
import { boundsOf, shareBetween } from './bounds.ts';
import { atLeast, type Cloth, leastOf } from './cloth.ts';
import type { Fact, Span } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';
import { isCovered, isGone, type Treated } from './takings.ts';

const FAILING = GRADES.length - 1;

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + of(item), 0);

/** Whether a group's cloth is failing: `lo` certainly, `hi` possibly. */
const failing = (
  quilt: SurveyedQuilt,
  group: UnitGroup,
): { readonly sure: boolean; readonly can: boolean } => {
  const family = quilt.families[group.family ?? ''];
  if (family === undefined) {
    const known = Object.values(quilt.families).map(({ fragility }) => boundsOf(fragility));
    return { sure: false, can: known.length === 0 || known.some(({ hi }) => hi === FAILING) };
  }
  const { lo, hi } = boundsOf(family.fragility);
  return { sure: lo === FAILING, can: hi === FAILING };
};

/**
 * Loss by area and by count. `cloth` is what is left to see: found, or with whatever is covered taken away. Lost,
 * missing and failing units are loss; units not seen and grades not known widen it.
 */
export const lossFacts = (
  quilt: SurveyedQuilt,
  cloth: Cloth,
  actions: readonly Treated[],
): Readonly<Record<string, Fact>> => {
  const covered = actions.filter(isCovered);
  const open = actions.filter((treated) => !isCovered(treated)).map(({ group }) => group);
  const gone = open.filter(isGone);
  const fresh = sum(covered, ({ group }) => group.share);
  const cannotFail = cloth.pieces.filter(({ grade }) => grade.hi < FAILING);
  const lo = sum(gone, ({ share }) => share) + atLeast(cloth, FAILING).lo;
  const hi = 1 - fresh - leastOf(cloth, cannotFail);
  const sure = open.filter((group) => isGone(group) || failing(quilt, group).sure);
  const can = open.filter((group) => isGone(group) || group.state === 'unseen' || failing(quilt, group).can);
  const pieces = (groups: readonly UnitGroup[]): number => sum(groups, ({ count }) => count) / quilt.total;
  return { loss: shareBetween(lo, hi), loss_by_count: shareBetween(pieces(sure), pieces(can)) };
};

/** The share lost of the family worst hit, each family's loss being a share of its own area. */
export const worstFamilyLoss = (quilt: SurveyedQuilt): Fact => {
  const losses = Object.values(quilt.families).map(({ letter, fragility, share }): Span => {
    const whole = boundsOf(share);
    const grade = boundsOf(fragility);
    const area = (wanted: (group: UnitGroup) => boolean) =>
      sum(quilt.groups.filter(wanted), (group) => group.share);
    const own = area((group) => group.family === letter && isGone(group));
    const perhaps = area(
      (group) =>
        (group.family === undefined && (isGone(group) || group.state === 'unseen')) ||
        (group.family === letter && group.state === 'unseen'),
    );
    // A family on the list that has no place on the map has nothing to lose.
    if (whole.hi <= 0) return { lo: 0, hi: 0 };
    return {
      lo: grade.lo === FAILING ? 1 : Math.min(1, own / whole.hi),
      hi: grade.hi === FAILING || whole.lo <= 0 ? 1 : Math.min(1, (own + perhaps) / whole.lo),
    };
  });
  if (losses.length === 0) return undefined;
  return shareBetween(Math.max(...losses.map(({ lo }) => lo)), Math.max(...losses.map(({ hi }) => hi)));
};
