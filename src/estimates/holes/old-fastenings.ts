import { oldJoining, putsBack } from '../old-joining.ts';
import { originalPerInch } from './seams.ts';
import { type Job, type Sewing, throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';

/**
 * The old joining of the layers: taken out where the quilt is opened, which leaves its holes behind; or put back
 * through its own holes where only part of it is missing and nothing else is planned.
 */
export const oldFastenings = (job: Job): readonly Sewing[] => {
  const { plan, context, tops } = job;
  const found = context.oldFastenings;
  const old = oldJoining(plan.quilt.size, found?.kind, found?.gap, job.figures);
  if (old === undefined) return [];
  const holes =
    old.knots * STITCHES.tie.ground(job.figures.number('stitching.tie')) + old.lines * originalPerInch(job);
  const kept = holes * (tops.cover.old + tops.cover.covered);
  const none = { amount: 0, unit: 'pieces', perforation: 0 } as const;
  if (plan.opens)
    return [
      {
        ...none,
        operation: 'old joining taken out',
        punctures: [],
        removed: kept,
        assumptions: [`The old joining is estimated to have left ${Math.round(kept)} holes in the top.`],
      },
    ];
  const restored = found?.restored ?? 0;
  if (!putsBack(plan) || restored <= 0) return [];
  const again = kept * restored;
  return [
    {
      ...none,
      operation: 'old joining put back',
      punctures: [{ layer: 'face', holes: again, reused: again }, ...throughTheBack(job, again, 1)],
      removed: again,
      assumptions: ['Missing parts of the old joining are put back through their own holes.'],
    },
  ];
};
