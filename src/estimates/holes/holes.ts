import type { Figures } from '../../figures/model.ts';
import type { Piecework } from '../../piecework/model.ts';
import type { Plan } from '../../plans/model.ts';
import { sewnLength } from '../../quantities/length.ts';
import { asSewn } from '../as-sewn.ts';
import type { HoleEstimate } from '../model.ts';
import { oldJoining, putsBack, resewn } from '../resewn.ts';
import { baste } from './basting.ts';
import { bind, hang } from './edges.ts';
import { sewLines } from './lines.ts';
import { hasOld, type PlannedTop, plannedTop } from './planned-top.ts';
import { closingStitch, originalPerInch } from './seams.ts';
import { setIn } from './setting-in.ts';
import {
  type Job,
  type Layer,
  type Punctures,
  type Sewing,
  type SewingContext,
  throughTheBack,
} from './sewing.ts';
import { STITCHES } from './stitches.ts';
import { sewPoints } from './ties.ts';
import { restitchUnits, restuffUnits, sewCovers } from './unit-work.ts';
import { weightOfGrade, weights } from './weight.ts';

export type { Sewing, SewingContext } from './sewing.ts';

/**
 * Open joins, and those sewn again with them: each hole goes through both neighbours' allowances. Joins of units that
 * are replaced are counted with setting in; at most what is left of the joins is resewn.
 */
const resewJoins = (job: Job): readonly Sewing[] => {
  const { plan, tops } = job;
  const { joins, inches, oldSides, newSides, movedSides, over, movedOver } = resewn(plan);
  if (inches <= 0) return [];
  const stitch = closingStitch(job);
  const holes = oldSides * stitch.perInch;
  const old = oldSides + movedSides;
  return [
    {
      operation: 'joins sewn again',
      amount: inches,
      unit: 'in',
      punctures: [
        { layer: 'allowance', holes, reused: holes * stitch.reused, ...(tops.mapped ? { over } : {}) },
        {
          layer: 'allowance',
          holes: movedSides * stitch.perInch,
          reused: 0,
          ...(tops.mapped ? { over: movedOver } : {}),
        },
        { layer: 'new cloth', holes: newSides * stitch.perInch, reused: 0 },
      ],
      perforation: old > 0 ? stitch.perforation : 0,
      removed: old * originalPerInch(job),
      assumptions: [
        `${sewnLength(inches, job.context.system)} of joins sewn again by ${plan.resewn.by}, through ${newSides > 0 ? 'both' : 'two old'} cloths.`,
        ...(movedSides > 0
          ? [
              'Seams that the cloth opened are sewn beside the old line or on to a strip: all their holes are new.',
            ]
          : []),
        // The plan tells whole joins.
        ...(plan.resewn.joins > joins + 0.5 + 1e-9
          ? ['Joins of replaced units are counted with setting them in.']
          : []),
      ],
    },
  ];
};

/**
 * The old joining of the layers: taken out where the quilt is opened, which leaves its holes behind; or put back
 * through its own holes where only part of it is missing and nothing else is planned.
 */
const oldFastenings = (job: Job): readonly Sewing[] => {
  const { plan, context, tops } = job;
  const found = context.oldFastenings;
  const old = oldJoining(plan.quilt.size, found?.kind, found?.gap, job.figures);
  if (old === undefined) return [];
  const holes =
    old.knots * STITCHES.tie.ground(job.figures.number('stitching.tie')) + old.lines * originalPerInch(job);
  const kept = holes * (tops.cover.old + tops.cover.covered);
  const none = { amount: 0, unit: 'pieces', perforation: 0 } as const;
  if (plan.opens)
    return [
      {
        ...none,
        operation: 'old joining taken out',
        punctures: [],
        removed: kept,
        assumptions: [`The old joining is estimated to have left ${Math.round(kept)} holes in the top.`],
      },
    ];
  const restored = found?.restored ?? 0;
  if (!putsBack(plan) || restored <= 0) return [];
  const again = kept * restored;
  return [
    {
      ...none,
      operation: 'old joining put back',
      punctures: [{ layer: 'face', holes: again, reused: again }, ...throughTheBack(job, again, 1)],
      removed: again,
      assumptions: ['Missing parts of the old joining are put back through their own holes.'],
    },
  ];
};

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
export const sewingOf = (asked: Plan, figures: Figures, context: SewingContext = {}): readonly Sewing[] => {
  const plan = asSewn(asked);
  const job: Job = { plan, figures, context, tops: plannedTop(plan) };
  return OPERATIONS.flatMap((operation) => operation(job));
};

const PATCHES =
  'Joins are estimated from the number and size of the patches; holes are spread over them in proportion.';

/** Lines both ways at the usual distance, two holes a stitch. */
const plainQuilt = ({ width, height }: { width: number; height: number }, figures: Figures): number =>
  Math.round(
    ((2 * width * height) / figures.number('stitching.plain_gap')) *
      2 *
      figures.range('stitching.hand_lines').likely,
  );

/**
 * Needle and pin penetrations of a plan, layer by layer, counted from the piecework and the stitch settings under
 * `stitching` in the figures. Throws ProblemError `missing-figure` where one is missing.
 */
export const holes = (plan: Plan, figures: Figures, context: SewingContext = {}): HoleEstimate => {
  const tops = plannedTop(asSewn(plan));
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
  let burden: number | undefined;
  const weighed = (): number => {
    const { at, mean } = weights({ plan: asSewn(plan), tops }, figures);
    let top = (fresh.face + fresh.allowance) * mean;
    if (tops.mapped) {
      top = 0;
      for (const [unit, count] of exactly(sewings, piecework, tops)) top += count * (at.get(unit) ?? mean);
    }
    return Math.round(top + fresh.backing * weightOfGrade(context.oldBackingGrade, figures));
  };
  return {
    newOldFace,
    newOldAllowance,
    newOldBacking: Math.round(fresh.backing),
    reused: Math.round(reused),
    newCloth: Math.round(fresh['new cloth']),
    inherited: Math.round(left),
    perforation: worst,
    plainQuilt: plainQuilt(plan.quilt.size, figures),
    // Hundreds of plans are compared and few are drawn or told: worked out only when read.
    get byUnit() {
      if (tops.mapped) byUnit ??= shareOut(exactly(sewings, piecework, tops), newOldFace + newOldAllowance);
      return byUnit;
    },
    get burden() {
      burden ??= weighed();
      return burden;
    },
    get assumptions() {
      const patches = counting === 'patches' ? [PATCHES] : [];
      return [...new Set([...patches, ...sewings.flatMap((each) => each.assumptions)])];
    },
  };
};

/** New holes in old cloth of the top, unit by unit. */
const exactly = (
  sewings: readonly Sewing[],
  piecework: Piecework,
  tops: PlannedTop,
): ReadonlyMap<string, number> => {
  const exact = new Map(piecework.units.map(({ at }) => [at, 0]));
  const old = piecework.units.filter(({ at }) => hasOld(tops.at(at)));
  // With every unit new what is left of old cloth is strips and borders: shown with the units beside them.
  const even = new Map((old.length > 0 ? old : piecework.units).map(({ at, area }) => [at, area]));
  for (const { punctures } of sewings) for (const puncture of punctures) pour(puncture, even, exact);
  return exact;
};

/** The same as whole numbers that add up to `total`: largest remainders first, then reading order. */
const shareOut = (exact: ReadonlyMap<string, number>, total: number): Readonly<Record<string, number>> => {
  const whole = [...exact].map(([at, holes]) => ({
    at,
    holes: Math.floor(holes),
    left: holes - Math.floor(holes),
  }));
  const short = total - whole.reduce((sum, { holes }) => sum + holes, 0);
  const next = new Set(
    whole
      .toSorted((one, other) => other.left - one.left)
      .slice(0, Math.max(0, short))
      .map(({ at }) => at),
  );
  return Object.fromEntries(whole.map(({ at, holes }) => [at, next.has(at) ? holes + 1 : holes]));
};

const pour = (
  { layer, holes, reused, over }: Punctures,
  even: ReadonlyMap<string, number>,
  exact: Map<string, number>,
): void => {
  const fresh = holes - reused;
  if (fresh <= 0 || (layer !== 'face' && layer !== 'allowance')) return;
  const found = over?.();
  const where = found !== undefined && found.size > 0 ? found : even;
  let weight = 0;
  for (const each of where.values()) weight += each;
  if (weight <= 0) return;
  for (const [at, each] of where) exact.set(at, (exact.get(at) ?? 0) + (fresh * each) / weight);
};
