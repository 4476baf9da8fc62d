import { unitAt } from '../piecework/reading.ts';
import type { GroupAction } from '../plans/model.ts';
import { around, outside } from './holes/outlines.ts';
import { plannedTop } from './holes/planned-top.ts';
import { type Layout, oncePerTop } from './holes/sewing.ts';

/** Units that come out or are put in, those side by side as one panel: lengths in inches. */
export interface Panels {
  /** Round all panels, where they are sewn to other cloth; the outer edge belongs to the binding. */
  readonly outline: number;
  /** Seams between two units of one panel. */
  readonly inner: number;
}

const NONE: Panels = { outline: 0, inner: 0 };

/**
 * Neighbours taken out together are cut loose along their common outline and nobody unpicks the seams between them; new
 * ones are sewn to each other on the table and go in as one piece (common practice, no source). Strips part the blocks of
 * a sashed quilt, so there each is by itself; so is each where nobody noted where they lie.
 */
const panelsOf = (groups: readonly GroupAction[], { plan: { quilt }, tops }: Layout): Panels => {
  let all = 0;
  const among = new Set<string>();
  const edges = outside(quilt);
  for (const { group } of groups) {
    if (!tops.mapped || group.where === undefined) {
      all += 4 * Math.sqrt(group.share * quilt.size.width * quilt.size.height * group.count);
      continue;
    }
    for (const at of group.where) {
      const unit = unitAt(quilt.piecework, at);
      if (unit === undefined) continue;
      among.add(at);
      all += around(unit.outline) - (edges.get(at)?.bare ?? 0);
    }
  }
  const together = quilt.piecework.kind === 'sashed' ? [] : quilt.piecework.joins;
  let inner = 0;
  for (const { a, b, length } of together) if (among.has(a) && among.has(b)) inner += length;
  return { outline: all - 2 * inner, inner };
};

const both = oncePerTop((layout) => {
  const { actions } = layout.plan;
  const there = actions.filter(({ action, group }) => action === 'replace' && group.count > 0);
  const out = actions.filter(
    ({ action, group }) =>
      (action === 'replace' || action === 'remove') && group.state !== 'missing' && group.count > 0,
  );
  return {
    out: out.length === 0 ? NONE : panelsOf(out, layout),
    set: there.length === 0 ? NONE : panelsOf(there, layout),
  };
});

/** What comes out, and what new units are set in. */
export const panels = (plan: Layout['plan']): { readonly out: Panels; readonly set: Panels } =>
  both({ plan, tops: plannedTop(plan) });
