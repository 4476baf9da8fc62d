import { joinsOf } from '../../piecework/reading.ts';
import { originalPerInch, seamStitch } from './seams.ts';
import { type Job, type Layout, oncePerTop, type Sewing } from './sewing.ts';
import { hasOld } from './tops.ts';

/** Joins sewn because a unit at one side is replaced: inches in old allowances, inches in new cloth, and how many. */
export interface SetIn {
  readonly joins: number;
  readonly old: number;
  readonly fresh: number;
  readonly over: ReadonlyMap<string, number> | undefined;
}

/**
 * From the graph where there is a map; otherwise as if replaced units lay anywhere. On sashed quilts every side of a
 * replaced unit is sewn to an old strip. Edges under the binding belong to the binding.
 */
export const setInLengths = oncePerTop((job): SetIn => {
  if (job.plan.quilt.piecework.kind === 'sashed') return toStrips(job);
  return job.tops.mapped ? onTheMap(job) : byShares(job);
});

const onTheMap = ({ plan, tops }: Layout): SetIn => {
  const over = new Map<string, number>();
  let [joins, old, fresh] = [0, 0, 0];
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
  return { joins, old, fresh, over };
};

const byShares = ({ plan, tops }: Layout): SetIn => {
  const { total, length } = plan.quilt.joins;
  const r = tops.replacedShare;
  const old = tops.share.old + tops.share.covered;
  const otherNew = tops.share.new - r;
  const toOld = 2 * r * old * total;
  const toNew = (r * r + 2 * r * otherNew) * total;
  return { joins: toOld + toNew, old: toOld * length, fresh: (toOld + 2 * toNew) * length, over: undefined };
};

const toStrips = ({ plan, tops }: Layout): SetIn => {
  const { piecework, total } = plan.quilt;
  if (!tops.mapped) {
    const around = 2 * (piecework.unit.width + piecework.unit.height) * tops.replacedShare * total;
    return { joins: 4 * tops.replacedShare * total, old: around, fresh: around, over: undefined };
  }
  let [joins, length] = [0, 0];
  for (const { at } of piecework.units) {
    if (!tops.isReplaced(at)) continue;
    joins += joinsOf(piecework, at).length;
    length += 2 * (piecework.unit.width + piecework.unit.height);
  }
  // The strips are on no map: their holes are spread over the quilt.
  return { joins, old: length, fresh: length, over: undefined };
};

export const setIn = (job: Job): readonly Sewing[] => {
  const { old, fresh, over } = setInLengths(job);
  if (old + fresh <= 0) return [];
  const stitch = seamStitch(job.plan.resewn.by, job);
  const holes = old * stitch.perInch;
  return [
    {
      operation: 'new units set in',
      amount: (old + fresh) / 2,
      unit: 'in',
      punctures: [
        {
          layer: 'allowance',
          holes,
          reused: holes * stitch.reused,
          ...(over === undefined ? {} : { over: () => over }),
        },
        { layer: 'new cloth', holes: fresh * stitch.perInch, reused: 0 },
      ],
      perforation: old > 0 ? stitch.perforation : 0,
      removed: old * originalPerInch(job),
      assumptions: job.tops.mapped
        ? []
        : ['Without a map the replaced units are taken to lie anywhere on the quilt.'],
    },
  ];
};
