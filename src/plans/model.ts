import { type Action, TREATMENTS, type Treatment } from '../casebook/scales.ts';
import type { Fact } from '../findings/fact.ts';
import { isAlike, isPlaced } from '../findings/survey-groups.ts';
import type { SurveyedQuilt, UnitGroup } from '../findings/surveyed.ts';
import type { Directions, Pattern } from '../piecework/model.ts';

/** What is done with one group of units, and the rule that says so. */
export interface GroupAction {
  readonly group: UnitGroup;
  readonly action: Action;
  /** Filled again besides. */
  readonly filled?: true;
  /** Rules that ask for this action; the first is the one cited. Empty for `keep` by default. */
  readonly rules: readonly string[];
}

export type { Directions, Pattern } from '../piecework/model.ts';

/** A fully specified treatment. Lengths in inches. */
export interface PlanSpec {
  readonly treatment: Treatment;
  readonly joining: 'none' | 'tacks' | 'ties' | 'lines';
  readonly backing: 'keep' | 'add' | 'replace' | 'none';
  readonly batting: 'keep' | 'replace' | 'none';
  readonly pattern: Pattern;
  readonly directions: Directions;
  readonly sewnBy: 'hand' | 'machine';
  /** Name in figures.yaml of the new batting, where it is replaced. */
  readonly newBatting: string | undefined;
}

/** The widest unfastened distance when the plan is carried out, and what the batting allows; undefined is unknown. */
export interface PlanGaps {
  readonly after: Fact;
  readonly rated: Fact;
  /** Between the new fastenings alone; undefined where there are none. */
  readonly fresh?: number | undefined;
}

/** What a plan does and to what: the one argument of every estimate. */
export interface Plan extends PlanSpec {
  readonly id: string;
  readonly quilt: SurveyedQuilt;
  readonly actions: readonly GroupAction[];
  /** Joins sewn again. `leave` resews none. */
  readonly resewn: {
    readonly joins: number;
    readonly by: 'hand' | 'machine';
    /** Of those, joins that the cloth opened: sewn beside the old line, which would tear again. */
    readonly moved?: number;
    /** Share of the closed joins sewn again on each seam line, where it is known which lines failed; else anywhere. */
    readonly beside?: ReadonlyMap<string, number>;
  };
  readonly gaps: PlanGaps;
  /** Whether backing or batting come off, so that hidden damage may show. */
  readonly opens: boolean;
}

/**
 * How much is done: nothing; what is broken is mended; or layers are fastened anew, and then how many of them are new and
 * whether the quilt is opened for it. Ties are no less than lines, or tacks than ties: that is how it is best done.
 */
export function workIn({ treatment, backing, opens }: Plan): number {
  if (treatment === 'leave' || treatment === 'reassemble') return TREATMENTS.indexOf(treatment);
  return 2 + [backing === 'add' || backing === 'replace', opens].filter(Boolean).length;
}

/**
 * Where some of a plan's actions are carried out; undefined where that cannot be told. On a map that does not show
 * fabrics, groups of the same marks share their places: these are told only where the same is done to all of them.
 */
export function placesOf(
  some: readonly GroupAction[],
  all: readonly GroupAction[],
): readonly string[] | undefined {
  const places: string[] = [];
  for (const { group } of some) {
    const alike = all.every((other) => !isAlike(other.group, group) || some.includes(other));
    if (group.where === undefined || !(isPlaced(group) || alike)) return undefined;
    places.push(...group.where);
  }
  return places;
}
