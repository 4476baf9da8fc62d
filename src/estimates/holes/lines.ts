import { joiningGeometry } from '../../piecework/patterns.ts';
import { landLines } from './ditch.ts';
import { inOldCloth, landed } from './landing.ts';
import { needleInUse } from './needles.ts';
import type { Job, Sewing } from './sewing.ts';
import { throughTheBack } from './sewing.ts';
import { closeness } from './spoken.ts';
import { MM_PER_INCH, perforation, STITCHES } from './stitches.ts';

/** How lines of quilting are sewn: by hand as the original was, where that was counted on hand work. */
const quilting = ({
  plan,
  figures,
  context,
}: Job): { kind: 'running' | 'machine straight'; setting: number } => {
  if (plan.sewnBy === 'machine')
    return { kind: 'machine straight', setting: figures.number('stitching.machine_lines') };
  const original = context.piecing === 'machine' ? undefined : context.originalStitchesPerInch;
  return { kind: 'running', setting: original ?? figures.number('stitching.hand_lines') };
};

/**
 * Lines of quilting. In the ditch each hole lands in one neighbour, the low side of the seam; mid-unit it lands in
 * the unit. Both are the face of the cloth. Every hole goes through the backing too.
 */
export const sewLines = (job: Job): readonly Sewing[] => {
  const { plan, figures, context } = job;
  if (plan.joining !== 'lines') return [];
  const geometry = joiningGeometry(plan.quilt.piecework, plan);
  const { lines, length } = geometry;
  const { kind, setting } = quilting(job);
  const perInch = STITCHES[kind].ground(setting);
  const newSide = figures.number('stitching.new_side_of_the_ditch');
  const landing = landed(job.tops, geometry, newSide, (tally) => landLines(lines, job, newSide, tally));
  const oldLines = context.oldFastenings?.kind === 'lines' && plan.sewnBy === 'hand';
  const reused = oldLines ? figures.number('stitching.reused.lines_by_hand') : 0;
  return [
    {
      operation: 'lines of quilting',
      amount: length,
      unit: 'in',
      punctures: [
        ...inOldCloth(landing, 'face', perInch, reused, job.tops.mapped),
        { layer: 'new cloth', holes: landing.fresh * perInch, reused: 0 },
        ...throughTheBack(job, length * perInch, reused),
      ],
      perforation: landing.old > 0 ? perforation(kind, setting, needleInUse(plan.sewnBy, figures)) : 0,
      removed: 0,
      assumptions: [
        kind === 'running'
          ? `Lines sewn by hand at ${closeness(setting, 'stitches', context.system)} counted on top: ${closeness(perInch, 'holes', context.system)}.`
          : `Lines sewn by machine at ${setting} mm a stitch: ${closeness(MM_PER_INCH / setting, 'holes', context.system)}.`,
        ...(plan.quilt.piecework.kind === 'survey grid'
          ? ['Lines follow the seams nearest to the survey grid and are as long as its lines.']
          : []),
      ],
    },
  ];
};
