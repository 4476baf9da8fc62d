import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { sumIndependent, timesShared } from '../quantities/sum.ts';
import type { Circumstances } from './circumstances.ts';
import type { HoursEstimate } from './model.ts';
import { HIDDEN } from './operations/hidden.ts';
import { EDGES, LAYERS } from './operations/layers.ts';
import { OPENING } from './operations/opening.ts';
import { jobOf, type Operation } from './operations/operation.ts';
import { PAPERWORK, REPORT } from './operations/paperwork.ts';
import { SEAMS } from './operations/seams.ts';
import { UNITS } from './operations/units.ts';

/** Every operation of the trade, in the order the work goes. */
export const OPERATIONS: readonly Operation[] = [
  ...PAPERWORK,
  ...OPENING,
  ...HIDDEN,
  ...UNITS,
  ...SEAMS,
  ...LAYERS,
  ...EDGES,
  ...REPORT,
];

/**
 * Hours of skilled hands for a plan, before any contingency. A figure's low and high are read as 10th and 90th
 * percentiles of what one unit takes and its likely as the average, overruns included; so is the answer, and the
 * likely hours of the operations add up to it. Units of one operation go partly alike (the figure `hours.alike`),
 * different operations go independently, and one worker's pace is shared by them all. What is not known of the quilt
 * as found widens the range. Throws ProblemError `missing-figure` where the figures are incomplete.
 */
export const hours = (plan: Plan, figures: Figures, circumstances: Circumstances = {}): HoursEstimate => {
  const job = jobOf(plan, figures, circumstances);
  const operations = OPERATIONS.flatMap(({ name, unit, work }) => {
    const done = work(job);
    if (done === undefined) return [];
    return [{ operation: name, count: Math.round(done.count * 100) / 100, unit, hours: done.hours }];
  });
  const total = sumIndependent(operations.map((each) => each.hours));
  return { ...timesShared(total, figures.figure('hours.worker').spread ?? 0), operations };
};
