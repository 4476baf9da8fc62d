import { GRADES } from '../casebook/scales.ts';
import { areaOf, areaWhere } from './area.ts';
import { boundsOf, shareBetween } from './bounds.ts';
import { gradeOf, isUncounted } from './cloth.ts';
import type { Fact, Span } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';
import { fabricsOf, isCovered, isGone, type Treated } from './takings.ts';

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
