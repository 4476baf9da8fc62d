import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import { isCovered } from '../../findings/takings.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { oncePerPair } from '../../quantities/once.ts';
import type { Worked } from './old-cloth.ts';

/** How the joins of a quilt stand once a plan is carried out. Counts may be estimates where there is no map. */
export interface PlannedJoins {
  readonly total: number;
  /** Between old cloth and new. */
  readonly mixed: number;
  /** Resewn with old cloth on both sides. */
  readonly resewn: number;
  /** Old cloth on both sides, old thread. */
  readonly left: number;
}

export function plannedJoins({ quilt, actions }: Worked, joinsResewn: number): PlannedJoins {
  const { joins } = quilt;
  const total = Math.max(joins.total, joins.inspected ?? 0);
  const shares = sides(quilt, actions);
  const mixed = Math.round(total * shares.mixed);
  const old = Math.max(0, Math.round(total * shares.old));
  const resewn = Math.min(old, joinsResewn);
  return { total, mixed, resewn, left: old - resewn };
}

const isNew = ({ action }: GroupAction): boolean => action === 'replace' || action === 'patch_over';

/** Share of joins with one new side, and with two old ones: counted on the map, else as if pieces lay at random. */
const sides = oncePerPair(
  (quilt: SurveyedQuilt, actions: Plan['actions']): { mixed: number; old: number } => {
    const { joins } = quilt.piecework;
    const mapped = quilt.counting === 'units' && actions.every(({ group }) => group.where !== undefined);
    if (mapped && joins.length > 0) {
      const fresh = new Set(actions.filter(isNew).flatMap(({ group }) => group.where ?? []));
      const out = new Set(actions.filter(isCovered).flatMap(({ group }) => group.where ?? []));
      const mixed = joins.filter(
        ({ a, b }) => (fresh.has(a) && !out.has(b)) || (fresh.has(b) && !out.has(a)),
      ).length;
      const old = joins.filter(({ a, b }) => !out.has(a) && !out.has(b)).length;
      return { mixed: mixed / joins.length, old: old / joins.length };
    }
    const all = actions.reduce((sum, { group }) => sum + group.count, 0);
    if (all === 0) return { mixed: 0, old: 1 };
    const part = (some: readonly GroupAction[]): number =>
      some.reduce((sum, { group }) => sum + group.count, 0) / all;
    const kept = 1 - part(actions.filter(isCovered));
    return { mixed: 2 * part(actions.filter(isNew)) * kept, old: kept * kept };
  },
);
