import type { QuiltCase } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import type { Estimator } from '../estimates/estimate.ts';
import type { Estimates } from '../estimates/model.ts';
import type { Facts } from '../findings/fact.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { GroupAction, Plan } from '../plans/model.ts';

/** One plan with everything known of it: what it would do, and the facts rules may read. */
export interface Option {
  readonly plan: Plan;
  /** Works its estimates out, part by part, for whoever asks. */
  readonly estimator: Estimator;
  /** Found, planned and plan facts together. */
  readonly facts: Facts;
}

/** What a plan would do and what it takes, worked out in full. */
export const estimatesOf = ({ estimator }: Option): Estimates => estimator.estimates();

export const newHolesInOldCloth = ({ estimator }: Option): number => {
  const { newOldFace, newOldAllowance, newOldBacking } = estimator.holes();
  return newOldFace + newOldAllowance + newOldBacking;
};

/** A plan, by its place among those of its situation. */
export interface PlacedOption {
  readonly index: number;
  readonly option: Option;
}

/** A case made ready for the rules. Nothing here depends on what the rules of the stages say. */
export interface Situation {
  readonly quiltCase: QuiltCase;
  readonly asOf: string;
  readonly quilt: SurveyedQuilt;
  /** Facts as the client asked, for rules that refuse a use. */
  readonly asked: Facts;
  /** Facts as found, before any plan; a refused use is read as storage. */
  readonly found: Facts;
  /** Found and planned facts together: every other rule reads them. */
  readonly facts: Facts;
  readonly use: Use | undefined;
  readonly refusedUses: readonly Use[];
  readonly actions: readonly GroupAction[];
  readonly options: readonly Option[];
}

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
