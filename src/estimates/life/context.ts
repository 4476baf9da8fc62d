import type { Spell } from '../../casebook/model.ts';
import type { Use } from '../../casebook/scales.ts';

/** What bears on remaining life beyond the plan and the survey. Undefined is unknown. */
export interface LifeContext {
  /** Intended use. A use that is refused is reckoned as storage. */
  readonly use: Use;
  readonly history: readonly Spell[] | undefined;
  /** Years since it was made. */
  readonly ageYears: number | undefined;
  /** How it will be washed; by hand where nothing else is said. */
  readonly washing: Spell['washing'];
  /** Whether it will lie or hang in direct window light; taken as not where nothing else is said. */
  readonly directLight: boolean | undefined;
  /** Highest share of a stitched line taken by holes, from the plan's hole estimate. */
  readonly perforation: number | undefined;
  readonly wantedYears: number | undefined;
  /** The vocabulary's chances of each grade, best first, for cloth nobody has graded; equal where not given. */
  readonly gradeOdds: readonly number[] | undefined;
}
