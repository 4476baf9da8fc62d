import type { Figures } from '../../figures/model.ts';
import type { Plan } from '../../plans/model.ts';
import type { HoleEstimate } from '../model.ts';
import { baste } from './basting.ts';
import { shareOut } from './by-unit.ts';
import { sewCovers } from './covers.ts';
import { bind, hang } from './edges.ts';
import { resewJoins } from './joins.ts';
import { sewLines } from './lines.ts';
import { oldFastenings } from './old-fastenings.ts';
import { setIn } from './setting-in.ts';
import type { Job, Layer, Sewing, SewingContext } from './sewing.ts';
import { sewPoints } from './ties.ts';
import { topsOf } from './tops.ts';
import { restitchUnits, restuffUnits } from './unit-work.ts';

export type { Sewing, SewingContext } from './sewing.ts';

/** Every operation that makes holes, in the order of the work. Each answers for itself whether the plan has it. */
const OPERATIONS: readonly ((job: Job) => readonly Sewing[])[] = [
  oldFastenings,
  resewJoins,
  setIn,
  restitchUnits,
  restuffUnits,
  sewCovers,
  baste,
  sewPoints,
  sewLines,
  bind,
  hang,
];

/** Each operation of a plan with the holes it makes, not rounded: what a breakdown shows. */
export const sewingOf = (plan: Plan, figures: Figures, context: SewingContext = {}): readonly Sewing[] => {
  const job: Job = { plan, figures, context, tops: topsOf(plan) };
  return OPERATIONS.flatMap((operation) => operation(job));
};

const PATCHES =
  'Joins are estimated from the number and size of the patches; holes are spread over them in proportion.';

/**
 * Needle and pin penetrations of a plan, layer by layer, counted from the piecework and the stitch settings under
 * `stitching` in the figures. Throws ProblemError `missing-figure` where one is missing.
 */
export const holes = (plan: Plan, figures: Figures, context: SewingContext = {}): HoleEstimate => {
  const tops = topsOf(plan);
  const sewings = sewingOf(plan, figures, context);
  const fresh: Record<Layer, number> = { face: 0, allowance: 0, backing: 0, 'new cloth': 0 };
  let [reused, left, worst] = [0, 0, 0];
  for (const { punctures, perforation, removed } of sewings) {
    let again = 0;
    for (const each of punctures) {
      fresh[each.layer] += each.holes - each.reused;
      reused += each.reused;
      if (each.layer === 'face' || each.layer === 'allowance') again += each.reused;
    }
    left += Math.max(0, removed - again);
    worst = Math.max(worst, perforation);
  }
  const newOldFace = Math.round(fresh.face);
  const newOldAllowance = Math.round(fresh.allowance);
  const { piecework, counting } = plan.quilt;
  let byUnit: HoleEstimate['byUnit'];
  return {
    newOldFace,
    newOldAllowance,
    newOldBacking: Math.round(fresh.backing),
    reused: Math.round(reused),
    newCloth: Math.round(fresh['new cloth']),
    inherited: Math.round(left),
    perforation: worst,
    // Hundreds of plans are compared and few are drawn or told: worked out only when read.
    get byUnit() {
      if (tops.mapped) byUnit ??= shareOut(sewings, piecework, tops, newOldFace + newOldAllowance);
      return byUnit;
    },
    get assumptions() {
      const patches = counting === 'patches' ? [PATCHES] : [];
      return [...new Set([...patches, ...sewings.flatMap((each) => each.assumptions)])];
    },
  };
};
