import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { sumIndependent, timesShared } from '../quantities/range.ts';
import type { Circumstances, HoursEstimate } from './model.ts';
import { EDGES, HIDDEN, LAYERS, OPENING, REPORT, SURVEY } from './operations/opening.ts';
import { counted, jobOf, type Operation, treated } from './operations/operation.ts';
import { SEAMS, UNITS } from './operations/units.ts';

/** Work at the bench, in the order it goes. */
const BENCH: readonly Operation[] = [
  counted(
    'finding fabrics to match',
    'fabrics',
    'hours.fabric_search',
    (job) => new Set(treated(job, 'replace', 'patch_over').map(({ group }) => group.family)).size,
  ),
  ...OPENING,
  ...HIDDEN,
  ...UNITS,
  ...SEAMS,
  ...LAYERS,
  ...EDGES,
];

/** Every operation of the trade, in the order the work goes. */
export const OPERATIONS: readonly Omit<Operation, 'work'>[] = [SURVEY, ...BENCH, REPORT];

/**
 * Hours of skilled hands for a plan, before any contingency. A figure's low, likely and high are read as the 10th, 50th
 * and 90th percentiles of what one unit takes. Times lean to the long side, so the average lies above the middle: it is
 * worked out by Swanson's rule, is what `likely` means in the answer, and adds up over the operations. Units of one
 * operation go partly alike (the figure `hours.alike`), different operations go independently, and one worker's pace is
 * shared by them all. What is not known of the quilt as found widens the range. Throws ProblemError `missing-figure`
 * where the figures are incomplete.
 */
export const hours = (plan: Plan, figures: Figures, circumstances: Circumstances = {}): HoursEstimate => {
  const job = jobOf(plan, figures, circumstances);
  const bench = BENCH.flatMap((operation) => {
    const done = operation.work(job);
    return done === undefined ? [] : [{ operation, ...done }];
  });
  const atBench = bench.reduce((sum, each) => sum + each.hours.likely, 0);
  const operations = [
    { operation: SURVEY, ...SURVEY.work(job, atBench) },
    ...bench,
    { operation: REPORT, ...REPORT.work(job, atBench) },
  ].map(({ operation: { name, unit }, count, hours: each }) => ({
    operation: name,
    count: Math.round(count * 100) / 100,
    unit,
    hours: each,
  }));
  const total = sumIndependent(operations.map((each) => each.hours));
  return { ...timesShared(total, figures.figure('hours.worker').spread ?? 0), operations };
};
