import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { Piecework, Point, Unit } from '../../piecework/model.ts';
import { unitAt } from '../../piecework/reading.ts';
import type { GroupAction } from '../../plans/model.ts';
import { memoizeByObject } from '../../quantities/memo.ts';
import type { Layout } from './sewing.ts';

/** Inches once round an outline. */
export const around = (outline: readonly Point[]): number =>
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
  return first === undefined ? 0 : around(first.outline);
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
      const inches = unit === undefined ? 0 : around(unit.outline);
      each.set(at, inches);
      total += inches;
    }
  }
  return { total, each };
};

/** Inches of one unit's outline on the outer edge of the piecework: at left and right, at top and bottom. */
interface OnEdge {
  readonly sides: number;
  readonly ends: number;
}

const onTheEdge = memoizeByObject(({ width, height, units }: Piecework): ReadonlyMap<string, OnEdge> => {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  const along = (one: number, other: number, extent: number): boolean =>
    near(one, other) && (near(one, 0) || near(one, extent));
  const edgeOf = ({ outline }: Unit): OnEdge => {
    let [sides, ends] = [0, 0];
    outline.forEach((point, index) => {
      const next = outline[(index + 1) % outline.length] ?? point;
      if (along(point.x, next.x, width)) sides += Math.abs(next.y - point.y);
      else if (along(point.y, next.y, height)) ends += Math.abs(next.x - point.x);
    });
    return { sides, ends };
  };
  const all = units.map((unit) => [unit.at, edgeOf(unit)] as const);
  return new Map(all.filter(([, { sides, ends }]) => sides + ends > 0));
});

/** Tapes stretch and quilts are not square: up to this the units are the whole quilt, beyond it a border goes round. */
const SLACK = 1.02;

/** Where a unit ends at the outer edge of the units: inches sewn to a border, and inches under the binding. */
export interface Outside {
  readonly border: number;
  readonly bare: number;
}

/** For each unit at the outer edge of the units, which other units do not meet. */
export const outside = memoizeByObject(({ piecework, size }: SurveyedQuilt): ReadonlyMap<string, Outside> => {
  const sides = size.width > piecework.width * SLACK;
  const ends = size.height > piecework.height * SLACK;
  const found = [...onTheEdge(piecework)].map(([at, each]): [string, Outside] => {
    const border = (sides ? each.sides : 0) + (ends ? each.ends : 0);
    return [at, { border, bare: each.sides + each.ends - border }];
  });
  return new Map(found);
});
