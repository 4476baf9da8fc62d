import { type JoiningLine, joiningGeometry } from '../../piecework/patterns.ts';
import { closeness } from '../../quantities/length.ts';
import { inOldCloth, placeHoles, type Tally } from './landing.ts';
import { CLOTHS, type Cloth, hasOld } from './planned-top.ts';
import { type Job, type Sewing, throughTheBack } from './sewing.ts';
import { MM_PER_INCH, needleInUse, perforation, STITCHES } from './stitches.ts';

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
  const landing = placeHoles(job.tops, geometry, newSide, (tally) => landLines(lines, job, newSide, tally));
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

/** Share of a ditch between two units that lands in the first: half, more where it can be planned into new cloth. */
export const lowSide = (one: Cloth, other: Cloth, newSide: number): number => {
  if (one === 'gone') return 0;
  if (other === 'gone') return 1;
  if (hasOld(one) === hasOld(other)) return 0.5;
  return hasOld(one) ? (1 - newSide) / 2 : (1 + newSide) / 2;
};

/** On sashed quilts every seam has a strip on one side, and the strip is old cloth: it takes its half of the ditch. */
const inStrips = ({ plan }: Job): number => (plan.quilt.piecework.kind === 'sashed' ? 0.5 : 0);

/** Inches of line in old and in new cloth, from the map where there is one. */
const landLines = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void =>
  (job.tops.mapped ? onTheMap : byShares)(lines, job, newSide, tally);

const onTheMap = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void => {
  const { tops } = job;
  const strips = inStrips(job);
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      const a = units[0];
      const b = units[1];
      if (a === undefined) tally.add('old', length);
      else if (b === undefined) tally.add(tops.at(a), length, a);
      else {
        const one = tops.at(a);
        const other = tops.at(b);
        const first = lowSide(one, other, newSide) * (1 - strips);
        tally.add('old', length * strips);
        tally.add(one, length * first, a);
        tally.add(other, length * (1 - strips - first), b);
      }
    }
};

/** By shares, as if the units of each kind lay anywhere. */
const byShares = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void => {
  const { share } = job.tops;
  const strips = inStrips(job);
  let between = 0;
  let within = 0;
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      if (units.length === 0) tally.add('old', length);
      else if (units.length === 1) within += length;
      else {
        tally.add('old', length * strips);
        between += length * (1 - strips);
      }
    }
  for (const one of CLOTHS) {
    tally.add(one, within * share[one]);
    for (const other of CLOTHS)
      tally.add(one, 2 * between * share[one] * share[other] * lowSide(one, other, newSide));
  }
};
