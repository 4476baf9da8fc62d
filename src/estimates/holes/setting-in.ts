import { joinsOf } from '../../piecework/reading.ts';
import { around, outside } from './outlines.ts';
import { hasOld } from './planned-top.ts';
import { originalPerInch, seamStitch } from './seams.ts';
import { type Job, type Layout, oncePerTop, type Punctures, type Sewing } from './sewing.ts';

/** Joins sewn because a unit at one side is replaced: how many, and inches of what is sewn at either side. */
export interface SetIn {
  readonly joins: number;
  /** Allowances of old units. */
  readonly old: number;
  /** Old strips and borders, which are on no map. */
  readonly strips: number;
  readonly fresh: number;
  /** How `old` falls on the units. */
  readonly over: ReadonlyMap<string, number> | undefined;
}

/**
 * From the graph where there is a map; otherwise as if replaced units lay anywhere. On sashed quilts every inner side
 * of a replaced unit is sewn to an old strip, and where a border goes round, every outer one to the border. Outer
 * edges without a border belong to the binding.
 */
export const setInLengths = oncePerTop((job): SetIn => {
  if (job.plan.quilt.piecework.kind === 'sashed') return toStrips(job);
  return job.tops.mapped ? onTheMap(job) : byShares(job);
});

const onTheMap = ({ plan, tops }: Layout): SetIn => {
  const over = new Map<string, number>();
  let [joins, old, fresh, strips] = [0, 0, 0, 0];
  for (const join of plan.quilt.piecework.joins) {
    const ends = [join.a, join.b] as const;
    const replaced = ends.filter((at) => tops.isReplaced(at));
    if (replaced.length === 0 || ends.some((at) => tops.at(at) === 'gone')) continue;
    joins += 1;
    for (const at of ends) {
      if (hasOld(tops.at(at))) {
        old += join.length;
        over.set(at, (over.get(at) ?? 0) + join.length);
      } else fresh += join.length;
    }
  }
  for (const [at, { border }] of outside(plan.quilt)) if (tops.isReplaced(at)) strips += border;
  return { joins, old, strips, fresh: fresh + strips, over };
};

const byShares = ({ plan, tops }: Layout): SetIn => {
  const { total, length } = plan.quilt.joins;
  const r = tops.replacedShare;
  const old = tops.share.old + tops.share.covered;
  const otherNew = tops.share.new - r;
  const toOld = 2 * r * old * total;
  const toNew = (r * r + 2 * r * otherNew) * total;
  const strips = r * [...outside(plan.quilt).values()].reduce((sum, { border }) => sum + border, 0);
  return {
    joins: toOld + toNew,
    old: toOld * length,
    strips,
    fresh: (toOld + 2 * toNew) * length + strips,
    over: undefined,
  };
};

const toStrips = ({ plan: { quilt }, tops }: Layout): SetIn => {
  const edges = outside(quilt);
  let [joins, strips] = [0, 0];
  for (const { at, outline } of quilt.piecework.units) {
    const part = tops.mapped ? Number(tops.isReplaced(at)) : tops.replacedShare;
    joins += part * joinsOf(quilt.piecework, at).length;
    strips += part * (around(outline) - (edges.get(at)?.bare ?? 0));
  }
  return { joins, old: 0, strips, fresh: strips, over: undefined };
};

export const setIn = (job: Job): readonly Sewing[] => {
  const { old, strips, fresh, over } = setInLengths(job);
  if (old + strips + fresh <= 0) return [];
  const stitch = seamStitch(job.plan.resewn.by, job);
  const inOld = (inches: number): Omit<Punctures, 'over'> => {
    const holes = inches * stitch.perInch;
    return { layer: 'allowance', holes, reused: holes * stitch.reused };
  };
  return [
    {
      operation: 'new units set in',
      amount: (old + strips + fresh) / 2,
      unit: 'in',
      punctures: [
        { ...inOld(old), ...(over === undefined ? {} : { over: () => over }) },
        // Spread over the quilt.
        ...(strips > 0 ? [inOld(strips)] : []),
        { layer: 'new cloth', holes: fresh * stitch.perInch, reused: 0 },
      ],
      perforation: old + strips > 0 ? stitch.perforation : 0,
      removed: (old + strips) * originalPerInch(job),
      assumptions: job.tops.mapped
        ? []
        : ['Without a map the replaced units are taken to lie anywhere on the quilt.'],
    },
  ];
};
