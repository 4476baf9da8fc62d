import type { Action } from '../../casebook/scales.ts';
import { joinsOf } from '../../piecework/reading.ts';
import type { GroupAction } from '../../plans/model.ts';
import { outside, roundUnits } from './outlines.ts';
import { type Layout, oncePerTop } from './sewing.ts';
import { doneTo, hasNew, hasOld } from './tops.ts';

/** Inches round the units so covered: all, those over old cloth, those over new, and how old falls on the units. */
export interface Ground {
  readonly total: number;
  readonly old: number;
  /** Old strips and borders, which are on no map. */
  readonly strips: number;
  readonly fresh: number;
  readonly over: ReadonlyMap<string, number> | undefined;
}

/** What the units under one action are sewn down on, all round; undefined where there are none. */
export const groundOf = (action: Action): ((job: Layout) => Ground | undefined) =>
  oncePerTop((job) => {
    const groups = doneTo(job.plan.actions, action);
    if (groups.length === 0) return undefined;
    const { total, each } = roundUnits(groups, job);
    return { total, ...(job.tops.mapped ? groundOnTheMap(each, job) : groundByShares(groups, total, job)) };
  });

/** A unit's own cloth, or where it is missing whatever lies beside it: units, strips, a border, or nothing. */
const groundOnTheMap = (
  each: ReadonlyMap<string, number>,
  { plan: { quilt }, tops }: Layout,
): Omit<Ground, 'total'> => {
  const over = new Map<string, number>();
  let [old, strips, fresh] = [0, 0, 0];
  const add = (at: string, inches: number): void => {
    old += inches;
    over.set(at, (over.get(at) ?? 0) + inches);
  };
  for (const [at, inches] of each) {
    if (hasOld(tops.at(at))) {
      add(at, inches);
      continue;
    }
    const outer = outside(quilt).get(at);
    strips += outer?.border ?? 0;
    if (quilt.piecework.kind === 'sashed') strips += inches - (outer?.border ?? 0) - (outer?.bare ?? 0);
    else
      for (const { a, b, length } of joinsOf(quilt.piecework, at)) {
        const neighbour = a === at ? b : a;
        if (hasOld(tops.at(neighbour))) add(neighbour, length);
        else if (hasNew(tops.at(neighbour))) fresh += length;
      }
  }
  return { old, strips, fresh, over };
};

const groundByShares = (
  groups: readonly GroupAction[],
  total: number,
  { tops }: Layout,
): Omit<Ground, 'total'> => {
  const all = groups.reduce((sum, { group }) => sum + group.count, 0);
  const missing = groups.reduce((sum, { group }) => sum + (group.state === 'missing' ? group.count : 0), 0);
  const bare = (total * missing) / Math.max(1, all);
  const neighbours = tops.share.old + tops.share.covered;
  return { old: total - bare * (1 - neighbours), strips: 0, fresh: bare * tops.share.new, over: undefined };
};
