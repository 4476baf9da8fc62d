import { originalPerInch } from './seams.ts';
import { type Job, type Sewing, throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';

type Fastening = 'ties' | 'lines' | 'all_over';

/** Holes the old fastenings made in the top: worked out from the widest distance between them. */
const HOLES: Readonly<Record<Fastening, (job: Job, gap: number | undefined) => number | undefined>> = {
  ties: ({ plan, figures }, gap) =>
    gap === undefined
      ? undefined
      : (area(plan.quilt.size) / gap ** 2) * STITCHES.tie.ground(figures.number('stitching.tie')),
  lines: (job, gap) =>
    gap === undefined ? undefined : ((2 * area(job.plan.quilt.size)) / gap) * originalPerInch(job),
  all_over: (job) =>
    area(job.plan.quilt.size) * job.figures.number('stitching.old_all_over') * originalPerInch(job),
};

const area = ({ width, height }: { readonly width: number; readonly height: number }): number =>
  width * height;

/**
 * The old joining of the layers: taken out where the quilt is opened, which leaves its holes behind; or put back
 * through its own holes where only part of it is missing and nothing else is planned.
 */
export const oldFastenings = (job: Job): readonly Sewing[] => {
  const { plan, context, tops } = job;
  const found = context.oldFastenings;
  if (found === undefined || found.kind === 'none') return [];
  const holes = HOLES[found.kind](job, found.gap);
  if (holes === undefined) return [];
  const kept = holes * (tops.share.old + tops.share.covered);
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
  const restored = found.restored ?? 0;
  if (plan.joining !== 'none' || plan.treatment === 'leave' || restored <= 0) return [];
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
