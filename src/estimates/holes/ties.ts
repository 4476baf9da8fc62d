import { type JoiningPoint, joiningGeometry, type Place } from '../../piecework/patterns.ts';
import { inOldCloth, placeHoles, type Tally } from './landing.ts';
import { CLOTHS } from './planned-top.ts';
import type { Job, Sewing } from './sewing.ts';
import { throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';

const NAMES = { ties: 'ties', tacks: 'tacks' } as const;

const counted = (count: number, kind: keyof typeof NAMES): string =>
  `${count} ${count === 1 ? kind.slice(0, -1) : kind}`;

/** Which points of one kind of place enter which cloth; each point counts as one. */
const landPoints = (
  points: readonly JoiningPoint[],
  place: Place,
  { plan, tops }: Job,
  tally: Tally,
): void => {
  const cornerstones = plan.quilt.piecework.kind === 'sashed' && place === 'seam';
  const present = 1 - tops.share.gone;
  for (const point of points) {
    if (point.place !== place) continue;
    if (cornerstones) tally.add('old', 1);
    else if (tops.mapped) {
      let there = 0;
      for (const at of point.units) if (tops.at(at) !== 'gone') there += 1;
      for (const at of point.units) tally.add(tops.at(at), 1 / there, at);
    } else if (present > 0) for (const cloth of CLOTHS) tally.add(cloth, tops.share[cloth] / present);
  }
};

/**
 * Ties and tacks. At a crossing the needle passes once through the top, in the seam allowances of the four units
 * that meet there: each of them takes its part. On sashed quilts they meet in a cornerstone, which is old cloth.
 * In the middle of a unit the needle pierces the face.
 */
export const sewPoints = (job: Job): readonly Sewing[] => {
  const { plan, figures, context, tops } = job;
  if (plan.joining !== 'ties' && plan.joining !== 'tacks') return [];
  const geometry = joiningGeometry(plan.quilt.piecework, plan);
  const { points } = geometry;
  const each = STITCHES.tie.ground(
    figures.number(plan.joining === 'ties' ? 'stitching.tie' : 'stitching.tack'),
  );
  const reused = context.oldFastenings?.kind === 'ties' ? figures.number('stitching.reused.ties') : 0;

  const top = (place: Place, layer: 'face' | 'allowance'): Sewing['punctures'] => {
    const landing = placeHoles(tops, geometry, place, (tally) => landPoints(points, place, job, tally));
    return [
      ...inOldCloth(landing, layer, each, reused, tops.mapped),
      { layer: 'new cloth', holes: landing.fresh * each, reused: 0 },
    ];
  };
  return [
    {
      operation: NAMES[plan.joining],
      amount: points.length,
      unit: 'pieces',
      punctures: [
        ...top('seam', 'allowance'),
        ...top('cloth', 'face'),
        ...throughTheBack(job, points.length * each, reused),
      ],
      perforation: 0,
      removed: 0,
      assumptions: [`${counted(points.length, plan.joining)} of ${each} holes each in every layer.`],
    },
  ];
};
