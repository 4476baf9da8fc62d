import { type JoiningLine, joiningGeometry } from '../../piecework/patterns.ts';
import { needleInUse } from './needles.ts';
import type { Job, Sewing } from './sewing.ts';
import { throughTheBack } from './sewing.ts';
import { MM_PER_INCH, perforation, STITCHES } from './stitches.ts';
import { type Cloth, hasNew, hasOld } from './tops.ts';

const CLOTHS: readonly Cloth[] = ['old', 'covered', 'new', 'gone'];

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

/** Share of a ditch between two units that lands in the first: half, more where it can be planned into new cloth. */
export const lowSide = (one: Cloth, other: Cloth, newSide: number): number => {
  if (one === 'gone') return 0;
  if (other === 'gone') return 1;
  if (hasOld(one) === hasOld(other)) return 0.5;
  return hasOld(one) ? (1 - newSide) / 2 : (1 + newSide) / 2;
};

interface Landing {
  old: number;
  fresh: number;
  readonly over: Map<string, number>;
}

const land = (into: Landing, at: string | undefined, cloth: Cloth, length: number): void => {
  if (length === 0) return;
  if (hasNew(cloth)) into.fresh += length;
  if (!hasOld(cloth)) return;
  into.old += length;
  if (at !== undefined) into.over.set(at, (into.over.get(at) ?? 0) + length);
};

/** On sashed quilts every seam has a strip on one side, and the strip is old cloth: it takes its half of the ditch. */
const inStrips = ({ plan }: Job): number => (plan.quilt.piecework.kind === 'sashed' ? 0.5 : 0);

/** Inches of line in old and in new cloth, unit by unit from the map. */
const onTheMap = (lines: readonly JoiningLine[], job: Job, newSide: number): Landing => {
  const { tops } = job;
  const landing: Landing = { old: 0, fresh: 0, over: new Map() };
  const strips = inStrips(job);
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      const [a, b] = units;
      if (a === undefined) landing.old += length;
      else if (b === undefined) land(landing, a, tops.at(a), length);
      else {
        const [one, other] = [tops.at(a), tops.at(b)];
        const share = lowSide(one, other, newSide);
        landing.old += length * strips;
        land(landing, a, one, length * (1 - strips) * share);
        land(landing, b, other, length * (1 - strips) * (1 - share));
      }
    }
  return landing;
};

/** The same by shares, as if the units of each kind lay anywhere. */
const byShares = (lines: readonly JoiningLine[], job: Job, newSide: number): Landing => {
  const { share } = job.tops;
  const landing: Landing = { old: 0, fresh: 0, over: new Map() };
  const strips = inStrips(job);
  let [between, within] = [0, 0];
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      if (units.length === 0) landing.old += length;
      else if (units.length === 1) within += length;
      else {
        landing.old += length * strips;
        between += length * (1 - strips);
      }
    }
  for (const one of CLOTHS) {
    land(landing, undefined, one, within * share[one]);
    for (const other of CLOTHS)
      land(landing, undefined, one, 2 * between * share[one] * share[other] * lowSide(one, other, newSide));
  }
  return landing;
};

/**
 * Lines of quilting. In the ditch each hole lands in one neighbour, the low side of the seam; mid-unit it lands in
 * the unit. Both are the face of the cloth. Every hole goes through the backing too.
 */
export const sewLines = (job: Job): readonly Sewing[] => {
  const { plan, figures, context } = job;
  if (plan.joining !== 'lines') return [];
  const { lines, length } = joiningGeometry(plan.quilt.piecework, plan);
  const { kind, setting } = quilting(job);
  const perInch = STITCHES[kind].ground(setting);
  const newSide = figures.number('stitching.new_side_of_the_ditch');
  const landing = (job.tops.mapped ? onTheMap : byShares)(lines, job, newSide);
  const oldLines = context.oldFastenings?.kind === 'lines' && plan.sewnBy === 'hand';
  const reused = oldLines ? figures.number('stitching.reused.lines_by_hand') : 0;
  const holes = landing.old * perInch;
  return [
    {
      operation: 'lines of quilting',
      amount: length,
      unit: 'in',
      punctures: [
        { layer: 'face', holes, reused: holes * reused, ...(job.tops.mapped ? { over: landing.over } : {}) },
        { layer: 'new cloth', holes: landing.fresh * perInch, reused: 0 },
        ...throughTheBack(job, length * perInch, reused),
      ],
      perforation: holes > 0 ? perforation(kind, setting, needleInUse(plan.sewnBy, figures)) : 0,
      removed: 0,
      assumptions: [
        kind === 'running'
          ? `Lines sewn by hand at ${setting} stitches per inch counted on top: ${perInch} holes per inch.`
          : `Lines sewn by machine at ${setting} mm a stitch: ${(MM_PER_INCH / setting).toFixed(1)} holes per inch.`,
        ...(plan.quilt.piecework.kind === 'survey grid'
          ? ['Lines follow the seams nearest to the survey grid and are as long as its lines.']
          : []),
      ],
    },
  ];
};
