import { isBoundAnew } from '../as-sewn.ts';
import { outside } from './outlines.ts';
import { hasNew, hasOld, type PlannedTop } from './planned-top.ts';
import { seamStitch } from './seams.ts';
import type { Job, Punctures, Sewing } from './sewing.ts';
import { backings, oncePerTop, throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';

/** A new binding: sewn through the edge, in the allowance it hides, then turned and whipped down on the back. */
export const bind = (job: Job): readonly Sewing[] => {
  const { plan, figures, tops } = job;
  if (!isBoundAnew(plan)) return [];
  const length = 2 * (plan.quilt.size.width + plan.quilt.size.height);
  const stitch = seamStitch(plan.sewnBy, job);
  const whip = length * STITCHES.whip.ground(figures.number('stitching.whip'));
  const through = length * stitch.perInch;
  const { old, border, fresh, over } = edgeCloth(job);
  const inOld = (share: number): Omit<Punctures, 'over'> => ({
    layer: 'allowance',
    holes: through * share,
    reused: through * share * stitch.reused,
  });
  const holes = through * (old + border);
  return [
    {
      operation: 'a new binding',
      amount: length,
      unit: 'in',
      punctures: [
        { ...inOld(old), ...(tops.mapped ? { over: () => over } : {}) },
        ...(border > 0 ? [inOld(border)] : []),
        { layer: 'new cloth', holes: through * fresh + through + whip, reused: 0 },
        ...throughTheBack(job, through, stitch.reused),
        ...throughTheBack(job, whip, 0),
      ],
      perforation: holes > 0 ? stitch.perforation : 0,
      removed: holes,
      assumptions:
        border > 0 ? ['Holes of the binding in strips and borders are shown spread over the units.'] : [],
    },
  ];
};

/** What the edge is made of, as shares of its length. */
interface EdgeCloth {
  /** Old units, and how they take it. */
  readonly old: number;
  readonly over: ReadonlyMap<string, number>;
  /** Old cloth too, but on no map. */
  readonly border: number;
  readonly fresh: number;
}

const edgeCloth = oncePerTop(({ plan: { quilt }, tops }): EdgeCloth => {
  const over = new Map<string, number>();
  let [bare, old, fresh] = [0, 0, 0];
  // Half and quarter units at the edge of a quilt on point are on no map and stay as they are.
  const share = quilt.piecework.kind === 'on point' ? EDGE_ON_POINT : tops.share;
  for (const [at, each] of outside(quilt)) {
    bare += each.bare;
    if (!tops.mapped) {
      old += (share.old + share.covered) * each.bare;
      fresh += (share.new + share.covered) * each.bare;
      continue;
    }
    const cloth = tops.at(at);
    if (hasNew(cloth)) fresh += each.bare;
    if (!hasOld(cloth)) continue;
    old += each.bare;
    if (each.bare > 0) over.set(at, each.bare);
  }
  // What is not beside a unit is beside a border or the end of a strip.
  const all = Math.max(bare, 2 * (quilt.size.width + quilt.size.height));
  return { old: old / all, over, border: (all - bare) / all, fresh: fresh / all };
});

const EDGE_ON_POINT: PlannedTop['share'] = { old: 1, covered: 0, new: 0, gone: 0 };

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
