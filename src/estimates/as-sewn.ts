import type { GroupAction, Plan } from '../plans/model.ts';
import { memoizeByObject } from '../quantities/memo.ts';

/**
 * Whether the edge is bound anew: wherever the layers were parted, since that takes the old binding off, and wherever a
 * backing is put on, whose raw edge has to be covered. One answer for hours, cloth, thread and holes.
 */
export const isBoundAnew = ({ opens, backing }: Pick<Plan, 'opens' | 'backing'>): boolean =>
  opens || backing === 'add' || backing === 'replace';

/**
 * Whether seams can be got at from inside, where they are sewn as they were when the top was made. In a quilt that stays
 * closed they are closed from the front, with a ladder stitch: no other gets there.
 */
export const isInReach = (
  { opens, backing }: Pick<Plan, 'opens' | 'backing'>,
  hadBacking: boolean,
): boolean => opens || backing === 'none' || !hadBacking;

/**
 * A plan as it is sewn: a new backing under all of the quilt is the support of its weak units too, held at the edge and in
 * sound cloth (common practice, no source). A support of its own round each of them would put a line of holes round the
 * very cloth it is to spare. Where a unit is missing its support stays: it is the cloth that closes the gap.
 */
export const asSewn = (plan: Plan): Plan => {
  const full = plan.backing === 'add' || plan.backing === 'replace';
  return full ? { ...plan, actions: carried(plan.actions) } : plan;
};

const carried = memoizeByObject((actions: Plan['actions']): Plan['actions'] => {
  const isCarried = ({ action, group }: GroupAction): boolean =>
    action === 'support' && group.state !== 'missing';
  if (!actions.some(isCarried)) return actions;
  return actions.map((each) => (isCarried(each) ? { ...each, action: 'keep' } : each));
});
