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
