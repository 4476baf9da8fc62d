import { formatLength } from '../../quantities/length.ts';
import { roundUnits } from './outlines.ts';
import { originalPerInch, seamStitch } from './seams.ts';
import { type Job, oncePerTop, type Sewing } from './sewing.ts';
import { STITCHES } from './stitches.ts';
import { doneTo } from './tops.ts';

const outlines = oncePerTop((job) => {
  const groups = doneTo(job.plan.actions, 'restitch').filter(({ group }) => group.state !== 'missing');
  return groups.length === 0 ? undefined : roundUnits(groups, job);
});

/** Seams within units sewn again: two old cloths a hole, re-entering old holes by hand. */
export const restitchUnits = (job: Job): readonly Sewing[] => {
  const round = outlines(job);
  if (round === undefined) return [];
  const { total, each } = round;
  const share = job.figures.number('stitching.restitched');
  const length = total * share;
  const stitch = seamStitch('hand', job);
  const holes = 2 * length * stitch.perInch;
  return [
    {
      operation: 'seams within units sewn again',
      amount: length,
      unit: 'in',
      punctures: [
        {
          layer: 'allowance',
          holes,
          reused: holes * stitch.reused,
          ...(job.tops.mapped ? { over: () => each } : {}),
        },
      ],
      perforation: stitch.perforation,
      removed: 2 * length * originalPerInch(job),
      assumptions: [`A unit is restitched along ${Math.round(share * 100)} % of its outline.`],
    },
  ];
};

/** Stuffed units opened along a seam, filled and closed with a ladder stitch through both folds. */
export const restuffUnits = (job: Job): readonly Sewing[] => {
  const groups = doneTo(job.plan.actions, 'restuff').filter(({ group }) => group.state !== 'missing');
  const count = groups.reduce((sum, { group }) => sum + group.count, 0);
  if (count === 0) return [];
  const opening = job.figures.number('stitching.restuffed');
  const length = count * opening;
  const holes = 2 * length * STITCHES.ladder.ground(job.figures.number('stitching.ladder'));
  const over = new Map(groups.flatMap(({ group }) => (group.where ?? []).map((at) => [at, 1] as const)));
  return [
    {
      operation: 'units stuffed again',
      amount: length,
      unit: 'in',
      punctures: [{ layer: 'allowance', holes, reused: 0, ...(job.tops.mapped ? { over: () => over } : {}) }],
      perforation: 0,
      removed: 2 * length * originalPerInch(job),
      assumptions: [
        `A stuffed unit is opened over ${formatLength(opening, job.context.system ?? 'inches')}.`,
      ],
    },
  ];
};
