import { MM_PER_INCH } from '../../quantities/length.ts';
import { type Range, times } from '../../quantities/range.ts';
import { panels } from '../panels.ts';
import { oldJoining, putsBack, resewn } from '../resewn.ts';
import { threadLength, yards } from './cut-size.ts';
import { piecesByFamily } from './pieces.ts';
import type { Shelf, Shopping } from './shopping.ts';

/** Inches of thread by what it is sewn into. */
const seams = ({ plan, figures }: Shopping): number => {
  const ratio = plan.resewn.by === 'machine' ? 'lockstitch_seam' : 'hand_running';
  return threadFromRatios(resewn(plan).inches, [figures.number(`materials.thread.${ratio}`)]);
};

/** Old lines put back by hand. Old ties take the thread of ties. */
const restored = ({ plan, figures, found }: Shopping): number => {
  if (!putsBack(plan)) return 0;
  const old = oldJoining(plan.quilt.size, found?.joining?.kind, found?.joining?.gap, figures);
  const length = (old?.lines ?? 0) * (found?.joining?.missing ?? 0);
  return threadFromRatios(length, [figures.number('materials.thread.hand_running')]);
};

const lines = ({ plan, figures, lines: length }: Shopping): number => {
  if (plan.sewnBy === 'hand')
    return threadFromRatios(length, [figures.number('materials.thread.hand_running')]);
  const perInch = MM_PER_INCH / figures.number('materials.thread.machine_stitch');
  return length * threadPerInch('301', figures.number('materials.thread.thickness'), perInch);
};

/** Once round every panel put in, with the seams within it. */
const settingIn = ({ plan, figures }: Shopping): number => {
  const { outline, inner } = panels(plan).set;
  return threadFromRatios(outline + inner, [figures.number('materials.thread.hand_running')]);
};

/** Once round every unit laid over or supported; where sizes are not on record, as if each were a square. */
const covers = ({ plan, figures }: Shopping): number => {
  const round = piecesByFamily(plan, ['patch_over', 'overlay', 'support']).map(({ pieces, area }) => {
    const count = pieces.reduce((sum, each) => sum + each.count, 0);
    return 4 * Math.sqrt(area * count);
  });
  const length = round.reduce((sum, each) => sum + each, 0);
  return threadFromRatios(length, [figures.number('materials.thread.hand_running')]);
};

/** The back edge of a binding is felled by hand; the front is sewn as the quilt is. */
const edge = ({ plan, figures, rebound }: Shopping): number => {
  if (!rebound) return 0;
  const round = 2 * (plan.quilt.size.width + plan.quilt.size.height);
  return threadFromRatios(round, [
    figures.number('materials.thread.hand_running'),
    figures.number(`materials.thread.${plan.sewnBy === 'machine' ? 'lockstitch_seam' : 'hand_running'}`),
  ]);
};

const tacks = ({ plan, figures, points }: Shopping): number =>
  plan.joining === 'tacks' ? points * figures.number('materials.ties.each') : 0;

/** Sewing thread for all of it, in whole spools. */
export const sewingThread: Shelf = (shopping) => {
  const { figures, system } = shopping;
  const inches = [seams, restored, lines, settingIn, covers, edge, tacks].reduce(
    (sum, part) => sum + part(shopping),
    0,
  );
  if (inches === 0) return [];
  const needed = yards(inches) * (1 + figures.number('materials.thread.waste'));
  const amount = Math.ceil(needed / figures.number('materials.thread.spool') - 1e-9);
  return [
    {
      what: 'sewing thread, no stronger than the cloth',
      amount,
      unit: 'spools',
      cost: times(figures.range('materials.thread.price'), amount),
      note: `about ${threadLength(needed, system)}`,
    },
  ];
};

/** Pearl cotton or floss for ties, in whole balls. */
export const tieThread: Shelf = ({ plan, figures, points, system }) => {
  if (plan.joining !== 'ties' || points === 0) return [];
  const each = figures.range('materials.ties.each');
  const balls = (inches: number): number =>
    Math.ceil(yards(points * inches) / figures.number('materials.ties.ball') - 1e-9);
  const price = figures.range('materials.ties.price');
  const cost: Range = {
    low: price.low * balls(each.low),
    likely: price.likely * balls(each.likely),
    high: price.high * balls(each.high),
  };
  const note = `${points} ties, about ${threadLength(yards(points * each.likely), system)}`;
  return [{ what: 'pearl cotton or floss for ties', amount: balls(each.likely), unit: 'spools', cost, note }];
};

/**
 * Stitch classes of ISO 4915 as far as quilts meet them. `fixed` is thread along the cloth, in lengths of the seam;
 * each stitch also passes the layers twice.
 */
const STITCH_CLASSES = {
  '101': { name: 'single-thread chainstitch', fixed: 3 },
  '301': { name: 'lockstitch', fixed: 2 },
  '401': { name: 'two-thread chainstitch', fixed: 4 },
} as const satisfies Record<string, { name: string; fixed: number }>;

type StitchClass = keyof typeof STITCH_CLASSES;

/** Inches of thread for an inch of seam through layers `thickness` in thick, by geometry, with no slack. */
export const threadPerInch = (stitch: StitchClass, thickness: number, stitchesPerInch: number): number =>
  STITCH_CLASSES[stitch].fixed + 2 * thickness * stitchesPerInch;

/** Thread for a seam from the share each thread takes of its length, as measured on a sample or read from a table. */
export const threadFromRatios = (seam: number, ratios: readonly number[], waste = 0): number =>
  seam * ratios.reduce((sum, ratio) => sum + ratio, 0) * (1 + waste);
