import type { Plan } from '../../plans/model.ts';

/**
 * What of a plan the needle meets, among the plans of one quilt: plans alike in this make the same holes. Batting is
 * not cloth whose holes are counted; it matters only where the quilt is opened for it.
 */
export const piercedAlike = (plan: Plan): string => {
  const { treatment, joining, pattern, directions, backing, sewnBy, resewn, opens } = plan;
  return [treatment, joining, pattern, directions, backing, sewnBy, resewn.by, resewn.joins, opens].join('|');
};
