import { originalPerInch, seamStitch } from './seams.ts';
import { setInLengths } from './setting-in.ts';
import type { Job, Sewing } from './sewing.ts';
import { hasOld } from './tops.ts';

/**
 * Open joins between old cloths, and those sewn again with them: each hole goes through both neighbours' allowances.
 * Joins of units that are replaced are counted with setting in; at most what is left of the joins is resewn.
 */
export const resewJoins = (job: Job): readonly Sewing[] => {
  const { plan, tops } = job;
  const { joins } = plan.quilt;
  const left = Math.max(0, joins.total - setInLengths(job).joins);
  const count = joins.total > 0 ? Math.min(plan.resewn.joins, left) : plan.resewn.joins;
  if (count <= 0) return [];
  const length = count * joins.length;
  const stitch = seamStitch(plan.resewn.by, job);
  const holes = 2 * length * stitch.perInch;
  return [
    {
      operation: 'joins sewn again',
      amount: length,
      unit: 'in',
      punctures: [
        {
          layer: 'allowance',
          holes,
          reused: holes * stitch.reused,
          ...(tops.mapped ? { over: () => whereResewn(job, count) } : {}),
        },
      ],
      perforation: stitch.perforation,
      removed: 2 * length * originalPerInch(job),
      assumptions: [
        `${Math.round(length)} in of joins sewn again by ${plan.resewn.by}, through two old cloths.`,
        ...(plan.resewn.joins > count ? ['Joins of replaced units are counted with setting them in.'] : []),
      ],
    },
  ];
};

/** Joins listed as open first, each on its two units; the others spread evenly over the joins of old cloth. */
const whereResewn = ({ plan, tops }: Job, count: number): ReadonlyMap<string, number> => {
  const { quilt } = plan;
  const over = new Map<string, number>();
  const add = (at: string, weight: number): void => {
    if (weight > 0 && hasOld(tops.at(at))) over.set(at, (over.get(at) ?? 0) + weight);
  };
  const named = Math.min(1, count / Math.max(1, quilt.joins.openAt.length));
  for (const { a, b } of quilt.joins.openAt) {
    add(a, named);
    add(b, named);
  }
  const rest = (count - named * quilt.joins.openAt.length) / Math.max(1, quilt.piecework.joins.length);
  for (const { a, b } of quilt.piecework.joins) {
    add(a, rest);
    add(b, rest);
  }
  return over;
};
