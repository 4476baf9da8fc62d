import { joiningGeometry } from '../../piecework/patterns.ts';
import type { Job, Layer, Sewing } from './sewing.ts';
import { throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';
import { type Cloth, hasNew, hasOld } from './tops.ts';

const CLOTHS: readonly Cloth[] = ['old', 'covered', 'new', 'gone'];
const NAMES = { ties: 'ties', tacks: 'tacks' } as const;

interface Share {
  old: number;
  fresh: number;
  readonly over: Map<string, number>;
}

/**
 * Ties and tacks. At a crossing the needle passes once through the top, in the seam allowances of the four units
 * that meet there: each of them takes its part. On sashed quilts they meet in a cornerstone, which is old cloth.
 * In the middle of a unit the needle pierces the face.
 */
export const sewPoints = (job: Job): readonly Sewing[] => {
  const { plan, figures, context, tops } = job;
  if (plan.joining !== 'ties' && plan.joining !== 'tacks') return [];
  const { points } = joiningGeometry(plan.quilt.piecework, plan);
  const each = STITCHES.tie.ground(
    figures.number(plan.joining === 'ties' ? 'stitching.tie' : 'stitching.tack'),
  );
  const reused = context.oldFastenings?.kind === 'ties' ? figures.number('stitching.reused.ties') : 0;

  const inLayer: Record<'seam' | 'cloth', Share> = {
    seam: { old: 0, fresh: 0, over: new Map() },
    cloth: { old: 0, fresh: 0, over: new Map() },
  };
  const present = 1 - tops.share.gone;
  const cornerstones = plan.quilt.piecework.kind === 'sashed';
  for (const { units, place } of points) {
    const share = inLayer[place];
    if (cornerstones && place === 'seam') {
      share.old += 1;
      continue;
    }
    if (!tops.mapped) {
      for (const cloth of CLOTHS) {
        if (cloth === 'gone' || present === 0) continue;
        const part = tops.share[cloth] / present;
        if (hasOld(cloth)) share.old += part;
        if (hasNew(cloth)) share.fresh += part;
      }
      continue;
    }
    const there = units.filter((at) => tops.at(at) !== 'gone');
    for (const at of there) {
      const cloth = tops.at(at);
      const part = 1 / there.length;
      if (hasNew(cloth)) share.fresh += part;
      if (!hasOld(cloth)) continue;
      share.old += part;
      share.over.set(at, (share.over.get(at) ?? 0) + part);
    }
  }
  const top = ([place, layer]: readonly ['seam' | 'cloth', Layer]): Sewing['punctures'] => {
    const { old, fresh, over } = inLayer[place];
    return [
      { layer, holes: old * each, reused: old * each * reused, ...(tops.mapped ? { over } : {}) },
      { layer: 'new cloth', holes: fresh * each, reused: 0 },
    ];
  };
  return [
    {
      operation: NAMES[plan.joining],
      amount: points.length,
      unit: 'pieces',
      punctures: [
        ...top(['seam', 'allowance']),
        ...top(['cloth', 'face']),
        ...throughTheBack(job, points.length * each, reused),
      ],
      perforation: 0,
      removed: 0,
      assumptions: [`${points.length} ${NAMES[plan.joining]} of ${each} holes each in every layer.`],
    },
  ];
};
