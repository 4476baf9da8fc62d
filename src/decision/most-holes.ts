import type { Plan } from '../plans/model.ts';
import type { Option } from './situation.ts';

interface Most {
  readonly where: string;
  readonly count: number;
}

/** The fabric of each place, where every group of the quilt says both. */
function fabricsByPlace({ groups, families }: Plan['quilt']): ReadonlyMap<string, string> {
  const fabrics = new Map<string, string>();
  for (const { family, where } of groups) {
    if (family === undefined || where === undefined) return new Map();
    for (const at of where) fabrics.set(at, families[family]?.name ?? `fabric ${family}`);
  }
  return fabrics;
}

/** Where most new holes in the top fall: by fabric where the map shows several, else by row; null where none stands out. */
export function mostHoles({ plan, estimator }: Option): Most | null {
  const byUnit = Object.entries(estimator.holes().byUnit ?? {});
  const fabrics = fabricsByPlace(plan.quilt);
  const several = new Set(fabrics.values()).size > 1;
  const sums = new Map<string, number>();
  for (const [at, count] of byUnit) {
    const where = several ? (fabrics.get(at) ?? 'other cloth') : `row ${at.replace(/\d+$/, '')}`;
    sums.set(where, (sums.get(where) ?? 0) + count);
  }
  const [first, second] = [...sums].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1));
  return first === undefined || second === undefined || first[1] === second[1]
    ? null
    : { where: first[0], count: first[1] };
}
