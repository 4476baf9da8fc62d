import type { Piecework, Point, Unit } from '../../piecework/model.ts';
import { unitAt } from '../../piecework/reading.ts';
import type { GroupAction } from '../../plans/model.ts';
import type { Layout } from './sewing.ts';

const length = (outline: readonly Point[]): number =>
  outline.reduce((sum, { x, y }, index) => {
    const next = outline[(index + 1) % outline.length] ?? { x, y };
    return sum + Math.hypot(next.x - x, next.y - y);
  }, 0);

/** Round one unit, in inches; round one patch where patches are counted: as many sides as a patch has joins. */
const usual = ({ plan }: Layout): number => {
  const { quilt } = plan;
  const { piecework, joins } = quilt;
  if (quilt.counting === 'patches') return (2 * joins.total * joins.length) / Math.max(1, quilt.total);
  const first = piecework.units.find((unit) => unit.part === 'whole');
  return first === undefined ? 0 : length(first.outline);
};

/** Inches round all units of some groups, and round each where they are on the map. */
export const roundUnits = (
  groups: readonly GroupAction[],
  job: Layout,
): { readonly total: number; readonly each: ReadonlyMap<string, number> } => {
  const each = new Map<string, number>();
  let total = 0;
  for (const { group } of groups) {
    if (!job.tops.mapped || group.where === undefined) total += group.count * usual(job);
    for (const at of job.tops.mapped ? (group.where ?? []) : []) {
      const unit = unitAt(job.plan.quilt.piecework, at);
      const around = unit === undefined ? 0 : length(unit.outline);
      each.set(at, around);
      total += around;
    }
  }
  return { total, each };
};

const edges = new WeakMap<Piecework, ReadonlyMap<string, number>>();

/** Inches of each unit's outline that lie on the edge of the piecework. */
export const onTheEdge = (piecework: Piecework): ReadonlyMap<string, number> => {
  const known = edges.get(piecework);
  if (known !== undefined) return known;
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  const together = (a: Point, b: Point): boolean =>
    (near(a.x, b.x) && (near(a.x, 0) || near(a.x, piecework.width))) ||
    (near(a.y, b.y) && (near(a.y, 0) || near(a.y, piecework.height)));
  const edgeOf = ({ outline }: Unit): number =>
    outline.reduce((sum, point, index) => {
      const next = outline[(index + 1) % outline.length] ?? point;
      return sum + (together(point, next) ? Math.hypot(next.x - point.x, next.y - point.y) : 0);
    }, 0);
  const found = new Map(
    piecework.units.map((unit) => [unit.at, edgeOf(unit)] as const).filter(([, inches]) => inches > 0),
  );
  edges.set(piecework, found);
  return found;
};
