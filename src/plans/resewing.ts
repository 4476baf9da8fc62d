import type { Figures } from '../figures/model.ts';
import type { SurveyedJoins } from '../findings/surveyed.ts';

/**
 * How many joins are resewn. Few open joins are closed where they are; where more are open their neighbours on
 * the same seams are resewn too, because the same thread holds them; beyond that every join is. Unknown counts
 * are planned for as none: the estimate says so, and the answer stays provisional.
 */
export function resewnJoins(joins: SurveyedJoins, figures: Figures): number {
  const { open, inspected, total } = joins;
  if (open === undefined || inspected === undefined || inspected === 0) return open ?? 0;
  const rate = open / inspected;
  const expected = rate * Math.max(total, inspected);
  if (rate > figures.number('plans.resew.all_above')) return Math.max(total, inspected);
  const each =
    rate > figures.number('plans.resew.in_place_up_to')
      ? figures.number('plans.resew.joins_for_each_open')
      : 1;
  return Math.min(Math.max(total, inspected), Math.round(expected * each));
}
