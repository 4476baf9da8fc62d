import { onTheEdge } from './outlines.ts';
import { seamStitch } from './seams.ts';
import type { Job, Sewing } from './sewing.ts';
import { backings, oncePerTop, throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';
import { hasNew, hasOld } from './tops.ts';

/** A new binding: sewn through the edge, in the allowance it hides, then turned and whipped down on the back. */
export const bind = (job: Job): readonly Sewing[] => {
  const { plan, figures, context, tops } = job;
  if (!(context.newBinding ?? backings(job).fresh)) return [];
  const length = 2 * (plan.quilt.size.width + plan.quilt.size.height);
  const stitch = seamStitch(plan.sewnBy, job);
  const whip = length * STITCHES.whip.ground(figures.number('stitching.whip'));
  const through = length * stitch.perInch;
  const { old, fresh, over } = edgeCloth(job);
  const holes = through * old;
  return [
    {
      operation: 'a new binding',
      amount: length,
      unit: 'in',
      punctures: [
        {
          layer: 'allowance',
          holes,
          reused: holes * stitch.reused,
          ...(tops.mapped ? { over: () => over } : {}),
        },
        { layer: 'new cloth', holes: through * fresh + through + whip, reused: 0 },
        ...throughTheBack(job, through, stitch.reused),
        ...throughTheBack(job, whip, 0),
      ],
      perforation: holes > 0 ? stitch.perforation : 0,
      removed: holes,
      assumptions: ['Holes of the binding that lie in a border are counted with the unit beside it.'],
    },
  ];
};

const edgeCloth = oncePerTop(
  ({ plan, tops }): { old: number; fresh: number; over: ReadonlyMap<string, number> } => {
    const over = new Map<string, number>();
    if (!tops.mapped)
      return { old: tops.share.old + tops.share.covered, fresh: tops.share.new + tops.share.covered, over };
    let [all, old, fresh] = [0, 0, 0];
    for (const [at, inches] of onTheEdge(plan.quilt.piecework)) {
      const cloth = tops.at(at);
      all += inches;
      if (hasNew(cloth)) fresh += inches;
      if (!hasOld(cloth)) continue;
      old += inches;
      over.set(at, inches);
    }
    return { old: old / all, fresh: fresh / all, over };
  },
);

/** A hanging sleeve, whipped along both long sides to the backing and batting and not to the top. */
export const hang = (job: Job): readonly Sewing[] => {
  // Where nothing is sewn there is no sleeve either.
  if (job.context.sleeve !== true || job.plan.treatment === 'leave') return [];
  const width = Math.max(
    0,
    job.plan.quilt.size.width - job.figures.number('stitching.sleeve_short_of_width'),
  );
  const holes = 2 * width * STITCHES.whip.ground(job.figures.number('stitching.whip'));
  return [
    {
      operation: 'a hanging sleeve',
      amount: 2 * width,
      unit: 'in',
      punctures: [{ layer: 'new cloth', holes, reused: 0 }, ...onTheOutermost(job, holes)],
      perforation: 0,
      removed: 0,
      assumptions: [],
    },
  ];
};

/** The sleeve is sewn to the outermost backing only: the new one where there is one. */
const onTheOutermost = (job: Job, holes: number): Sewing['punctures'] => {
  const { old, fresh } = backings(job);
  if (fresh) return [{ layer: 'new cloth', holes, reused: 0 }];
  return old ? [{ layer: 'backing', holes, reused: 0 }] : [];
};
