import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { sumIndependent, timesShared } from '../quantities/range.ts';
import type { Circumstances, HoursEstimate } from './model.ts';
import { EDGES, HIDDEN, LAYERS, OPENING } from './operations/opening.ts';
import { counted, jobOf, type Operation, treated } from './operations/operation.ts';
import { SEAMS, UNITS } from './operations/units.ts';

/** Every quilt is looked at and reported on, even one that is left as it is. */
const PAPERWORK: readonly Operation[] = [
  counted('intake, photographs and survey', 'quilt', 'hours.survey', () => 1),
  counted(
    'finding fabrics to match',
    'fabrics',
    'hours.fabric_search',
    (job) => new Set(treated(job, 'replace', 'patch_over').map(({ group }) => group.family)).size,
  ),
];

const REPORT: readonly Operation[] = [
  counted('report, packing and messages', 'quilt', 'hours.report', () => 1),
];

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
