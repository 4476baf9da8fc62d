import { resewn } from '../resewn.ts';
import { originalPerInch, seamStitch } from './seams.ts';
import type { Job, Sewing } from './sewing.ts';
import { sewnLength } from './spoken.ts';

/**
 * Open joins, and those sewn again with them: each hole goes through both neighbours' allowances. Joins of units that
 * are replaced are counted with setting in; at most what is left of the joins is resewn.
 */
export const resewJoins = (job: Job): readonly Sewing[] => {
  const { plan, tops } = job;
  const { joins, inches, oldSides, newSides, over } = resewn(plan);
  if (inches <= 0) return [];
  const stitch = seamStitch(plan.resewn.by, job);
  const holes = oldSides * stitch.perInch;
  return [
    {
      operation: 'joins sewn again',
      amount: inches,
      unit: 'in',
      punctures: [
        { layer: 'allowance', holes, reused: holes * stitch.reused, ...(tops.mapped ? { over } : {}) },
        { layer: 'new cloth', holes: newSides * stitch.perInch, reused: 0 },
      ],
      perforation: oldSides > 0 ? stitch.perforation : 0,
      removed: oldSides * originalPerInch(job),
      assumptions: [
        `${sewnLength(inches, job.context.system)} of joins sewn again by ${plan.resewn.by}, through ${newSides > 0 ? 'both' : 'two old'} cloths.`,
        ...(plan.resewn.joins > joins + 1e-9
          ? ['Joins of replaced units are counted with setting them in.']
          : []),
      ],
    },
  ];
};
