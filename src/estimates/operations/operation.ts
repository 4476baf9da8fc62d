import type { Quilt } from '../../casebook/model.ts';
import type { Action } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { joiningGeometry } from '../../piecework/patterns.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { readLength } from '../../quantities/length.ts';
import { memoizeByObject } from '../../quantities/memo.ts';
import { averaged, exactly, plus, type Range, repeated, times } from '../../quantities/range.ts';
import { asSewn, isBoundAnew, isInReach } from '../as-sewn.ts';
import type { Circumstances } from '../model.ts';

/** A plan as a worker sees it: what the operations count. Lengths in inches. */
export interface Job {
  readonly plan: Plan;
  /** With a support for each weak unit, also where a full backing carries them all. */
  readonly asked: Plan;
  readonly found: Quilt | undefined;
  readonly hung: boolean;
  /** Whether it lies open, so that nothing is hidden any more. */
  readonly opened: boolean;
  readonly figures: Figures;
  /** Ties or tacks to sew. */
  readonly points: number;
  /** Inches of line to sew. */
  readonly lines: number;
  readonly perimeter: number;
  /** The quilt's area in bed quilts: what hours given for a bed quilt are scaled by. */
  readonly bedQuilts: number;
  /** Whether seams can be reached from inside, so that they need not be closed from the front. */
  readonly inside: boolean;
  /** Whether the edge is bound anew. */
  readonly rebound: boolean;
}

/** One operation of the trade: it answers for itself how often a plan needs it and what that takes. */
export interface Operation {
  readonly name: string;
  readonly unit: string;
  /** The one figure its hours are taken from, where it is one: what hours as worked can correct. */
  readonly figure?: string;
  /** Undefined or a count of 0 where the plan does not need it. Hours are for the whole count. */
  readonly work: (job: Job) => { readonly count: number; readonly hours: Range } | undefined;
}

export const jobOf = (asked: Plan, figures: Figures, { found, hung, opened }: Circumstances): Job => {
  const plan = asSewn(asked);
  const { size, piecework } = plan.quilt;
  const { points, length } = joiningGeometry(piecework, plan);
  return {
    plan,
    asked,
    found,
    hung: hung ?? false,
    opened: opened ?? false,
    figures,
    points: points.length,
    lines: length,
    perimeter: 2 * (size.width + size.height),
    bedQuilts: (size.width * size.height) / figures.number('hours.bed_quilt'),
    inside: isInReach(plan, found?.backing?.kind !== 'none'),
    rebound: isBoundAnew(plan),
  };
};

/** A figure as hours: for one of what it counts, and how many inches that is where it counts by length, else 1. */
interface Rate {
  readonly each: Range;
  readonly length: number;
}

/** Units are read once, not plan by plan. */
const rates = memoizeByObject((_: Figures) => new Map<string, Rate>());

const rateOf = (figures: Figures, id: string): Rate => {
  const known = rates(figures).get(id);
  if (known !== undefined) return known;
  const [unit = '', per = ''] = figures.figure(id).unit.split(' per ');
  const inHours: Readonly<Record<string, number>> = { h: 1, min: 1 / 60 };
  const factor = inHours[unit];
  if (factor === undefined) throw new RangeError(`${id} is in "${unit}", not in h or min`);
  const length = readLength(per) ?? 1;
  const rate = { each: times(figures.range(id), factor / length), length };
  rates(figures).set(id, rate);
  return rate;
};

/**
 * Hours for one unit of what a figure counts, as the figure tells them (10th, 50th, 90th percentile): `min per 12 in`
 * becomes hours an inch, `h per quilt` hours a quilt.
 * Throws RangeError where the figure is not in hours or minutes.
 */
export const hoursEach = (figures: Figures, id: string): Range => rateOf(figures, id).each;

/** So many units whose hours are told by percentiles: their average, and the range of units that go partly alike. */
export const hoursOf = (each: Range, count: number, figures: Figures): Range =>
  repeated(averaged(each), count, figures.number('hours.alike'));

/** Hours for `count` units of what a figure counts. */
export const hoursFor = (figures: Figures, id: string, count: number): Range => {
  const { each, length } = rateOf(figures, id);
  return hoursOf(times(each, length), count / length, figures);
};

/** An operation of so many units at the hours of one figure. */
export const counted = (name: string, unit: string, id: string, count: (job: Job) => number): Operation => ({
  name,
  unit,
  figure: id,
  work: (job) => {
    const many = count(job);
    return many > 0 ? { count: many, hours: hoursFor(job.figures, id, many) } : undefined;
  },
});

/** Groups that a plan treats in one of the given ways. */
export const treated = ({ plan }: Pick<Job, 'plan'>, ...actions: readonly Action[]): readonly GroupAction[] =>
  plan.actions.filter(({ action, group }) => actions.includes(action) && group.count > 0);

export const unitsOf = (groups: readonly GroupAction[]): number =>
  groups.reduce((sum, { group }) => sum + group.count, 0);

/** Side of a square as large as one of the group's units or patches, from the share of the top it covers. */
export const sideOf = ({ plan }: Job, { group }: GroupAction): number =>
  Math.sqrt((group.share * plan.quilt.size.width * plan.quilt.size.height) / group.count);

/** Hours added side by side, for parts of one operation that go well or badly together. */
export const together = (parts: readonly Range[]): Range => parts.reduce(plus, exactly(0));
