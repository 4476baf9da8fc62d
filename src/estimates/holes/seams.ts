import { isInReach } from '../as-sewn.ts';
import type { Job } from './sewing.ts';
import { needleInUse, perforation, STITCHES } from './stitches.ts';

/** How a seam is sewn on this quilt: holes per inch in each cloth, and the share of them that find an old hole. */
export interface SeamStitch {
  readonly perInch: number;
  readonly reused: number;
  readonly perforation: number;
}

/** By hand a running stitch like the original's, re-entering old holes; by machine a straight one, all new. */
export const seamStitch = (by: 'hand' | 'machine', { figures, context }: Job): SeamStitch => {
  const kind = by === 'hand' ? 'running' : 'machine straight';
  const original = context.piecing === 'machine' ? undefined : context.originalStitchesPerInch;
  const setting =
    by === 'hand'
      ? (original ?? figures.number('stitching.hand_joins'))
      : figures.number('stitching.machine_joins');
  return {
    perInch: STITCHES[kind].ground(setting),
    reused: by === 'hand' ? figures.number('stitching.reused.joins_by_hand') : 0,
    perforation: perforation(kind, setting, needleInUse(by, figures)),
  };
};

/**
 * Seams closed again, by the stitch that is priced: in a quilt that stays closed a ladder stitch from the front, one hole
 * a rung in each fold, which lies along the old holes.
 */
export const closingStitch = (job: Job): SeamStitch => {
  const { plan, figures, context } = job;
  const { by } = plan.resewn;
  if (by === 'machine' || isInReach(plan, context.oldBacking !== false)) return seamStitch(by, job);
  const rung = figures.number('stitching.ladder');
  return {
    perInch: STITCHES.ladder.ground(rung),
    reused: figures.number('stitching.reused.joins_by_hand'),
    perforation: perforation('ladder', rung, needleInUse('hand', figures)),
  };
};

/** Holes per inch the old seam left in each cloth: a machine stitch counted on top is one hole. */
export const originalPerInch = ({ figures, context }: Job): number =>
  context.piecing === 'machine'
    ? (context.originalStitchesPerInch ??
      STITCHES['machine straight'].ground(figures.number('stitching.machine_joins')))
    : STITCHES.running.ground(context.originalStitchesPerInch ?? figures.number('stitching.hand_joins'));
