import type { Plan } from '../plans/model.ts';

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
