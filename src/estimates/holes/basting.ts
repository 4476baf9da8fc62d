import { sewnLength } from '../../quantities/length.ts';
import { type Job, type Layer, type Punctures, type Sewing, throughTheBack } from './sewing.ts';
import { STITCHES } from './stitches.ts';

/** Basting rows or pins along one side: one at each end and every `apart` inches between. */
const along = (side: number, apart: number): number => Math.floor(side / apart + 1e-9) + 1;

/** Pins on a square grid. */
export const pinsFor = (size: { readonly width: number; readonly height: number }, apart: number): number =>
  along(size.width, apart) * along(size.height, apart);

/** Inches of thread basting in rows, one way or both ways. */
export const threadFor = (
  size: { readonly width: number; readonly height: number },
  apart: number,
  ways: 1 | 2,
): number =>
  along(size.height, apart) * size.width + (ways === 2 ? along(size.width, apart) * size.height : 0);

/**
 * Holding the layers while they are joined. Pins go in seams as far as the figures say, thread runs over the face both
 * ways.
 * What is neither pinned nor threaded is clipped or weighted and makes no hole.
 */
export const baste = (job: Job): readonly Sewing[] => {
  const { plan, figures } = job;
  if (plan.joining === 'none') return [];
  const apart = figures.number('stitching.basting.apart');
  const pinned = figures.number(`stitching.basting.${plan.joining}.pins`);
  const threaded = figures.number(`stitching.basting.${plan.joining}.thread`);
  const pins = pinned * pinsFor(plan.quilt.size, apart);
  const repeat =
    figures.number('stitching.basting.thread_stitch') + figures.number('stitching.basting.thread_space');
  const thread = threaded * threadFor(plan.quilt.size, apart, 2);
  const pinHoles = pins * STITCHES.pin.ground(1);
  const threadHoles = thread * STITCHES['thread basting'].ground(repeat);
  const inSeams = figures.number('stitching.basting.in_seams');
  return [
    ...one(job, 'basting with pins', pins, 'pieces', {
      allowance: pinHoles * inSeams,
      face: pinHoles * (1 - inSeams),
    }),
    ...one(job, 'basting with thread', thread, 'in', { allowance: 0, face: threadHoles }),
  ];
};

const one = (
  job: Job,
  operation: string,
  amount: number,
  unit: Sewing['unit'],
  holes: Readonly<Record<'allowance' | 'face', number>>,
): readonly Sewing[] => {
  if (amount <= 0) return [];
  const { cover } = job.tops;
  const top = (layer: Layer, all: number): Punctures[] =>
    all === 0
      ? []
      : [
          { layer, holes: all * (cover.old + cover.covered), reused: 0 },
          { layer: 'new cloth', holes: all * (cover.new + cover.covered), reused: 0 },
        ];
  return [
    {
      operation,
      amount,
      unit,
      punctures: [
        ...top('allowance', holes.allowance),
        ...top('face', holes.face),
        ...throughTheBack(job, holes.allowance + holes.face, 0),
      ],
      perforation: 0,
      removed: 0,
      assumptions: [
        `${operation[0]?.toUpperCase()}${operation.slice(1)}: ${unit === 'in' ? `${sewnLength(amount, job.context.system)} of thread` : `${Math.round(amount)} pins`}.`,
      ],
    },
  ];
};
