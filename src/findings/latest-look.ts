import { currentCase, inOrder } from '../casebook/current-case.ts';
import { hazardFindings } from '../casebook/hazards.ts';
import type { QuiltCase, Survey } from '../casebook/model.ts';
import type { Hazard } from '../casebook/scales.ts';

export type Seen = Survey['seen'];

/** A case as its latest looks leave it, and how the cloth of each part was seen when its grade was stated. */
export interface LatestLook {
  readonly case: QuiltCase;
  readonly opened: boolean;
  /** Hazards that were noted once, are no longer, and of which nothing says what was done. */
  readonly withdrawn: readonly Hazard[];
  /** Hazards that somebody tested for, and found. */
  readonly confirmed: readonly Hazard[];
  readonly gradeSeen: {
    readonly backing: Seen;
    readonly binding: Seen;
    /** Those not named were seen as the survey says. */
    readonly families: Readonly<Record<string, Seen>>;
  };
}

const AS_THE_SURVEY: Readonly<Record<string, Seen>> = {};

/**
 * Applies the later looks in the order of their dates. A grade stays as it was seen when it was stated: looking at
 * a quilt in hand does not turn grades from photos into better ones until somebody grades again.
 */
export const latestLook = (found: QuiltCase): LatestLook => {
  let seen: Seen = found.survey.seen;
  let backing = seen;
  let binding = seen;
  const families = new Map(Object.keys(found.survey.families ?? {}).map((letter) => [letter, seen]));
  for (const look of inOrder(found.resurveys)) {
    // An opened quilt lay in somebody's hands, whatever the look says of itself.
    seen = look.opened ? 'in hand' : (look.seen ?? seen);
    if (look.quilt?.backing?.fragility !== undefined) backing = seen;
    if (look.quilt?.binding?.fragility !== undefined) binding = seen;
    for (const [letter, family] of Object.entries(look.families ?? {})) {
      if (family.fragility !== undefined || !families.has(letter)) families.set(letter, seen);
    }
  }
  const { lookedInside, ...current } = currentCase(found);
  const { findings, withdrawn, confirmed } = hazardFindings(found, current.survey.findings);
  const latest = { ...current, survey: { ...current.survey, findings } };
  return {
    case: latest,
    withdrawn,
    confirmed,
    opened: lookedInside || latest.survey.findings.opened === true,
    gradeSeen: {
      backing,
      binding,
      families: found.resurveys.length === 0 ? AS_THE_SURVEY : Object.fromEntries(families),
    },
  };
};
