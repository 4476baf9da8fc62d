import type { Action } from '../../casebook/scales.ts';
import { joinsOf } from '../../piecework/reading.ts';
import type { GroupAction } from '../../plans/model.ts';
import { needleInUse } from './needles.ts';
import { roundUnits } from './outlines.ts';
import { type Job, type Layout, oncePerTop, type Sewing } from './sewing.ts';
import { perforation, STITCHES, type StitchKind } from './stitches.ts';
import { doneTo, hasOld } from './tops.ts';

interface Cover {
  readonly action: Action;
  readonly operation: string;
  readonly stitch: StitchKind;
  readonly setting: string;
  readonly ground: (job: Layout) => Ground | undefined;
}

/** Inches round the units so covered: all, those in old cloth, and how these fall on the units where there is a map. */
interface Ground {
  readonly total: number;
  readonly old: number;
  readonly over: ReadonlyMap<string, number> | undefined;
}

/** Cloth laid over or under a unit and sewn round its edge by hand, always with the needle in the seam line. */
const KINDS: readonly Omit<Cover, 'ground'>[] = [
  {
    action: 'patch_over',
    operation: 'patches sewn over',
    stitch: 'appliqué blind',
    setting: 'stitching.applique',
  },
  { action: 'overlay', operation: 'overlays', stitch: 'running', setting: 'stitching.overlay' },
  { action: 'support', operation: 'supports under units', stitch: 'running', setting: 'stitching.support' },
];

/**
 * Holes round covered units. They fall in the ditch, in the seam allowance: the unit's own, or its neighbours' where
 * the unit itself is missing. Nothing is re-entered: the stitches are none that were there before.
 */
export const sewCovers = (job: Job): readonly Sewing[] =>
  COVERS.flatMap((cover): Sewing[] => {
    const ground = cover.ground(job);
    if (ground === undefined) return [];
    const { total, old, over } = ground;
    const setting = job.figures.number(cover.setting);
    const stitch = STITCHES[cover.stitch];
    const perInch = stitch.ground(setting);
    return [
      {
        operation: cover.operation,
        amount: total,
        unit: 'in',
        punctures: [
          {
            layer: 'allowance',
            holes: old * perInch,
            reused: 0,
            ...(over === undefined ? {} : { over: () => over }),
          },
          { layer: 'new cloth', holes: (total - old) * perInch + total * stitch.upper(setting), reused: 0 },
        ],
        perforation: old > 0 ? perforation(cover.stitch, setting, needleInUse('hand', job.figures)) : 0,
        removed: 0,
        assumptions: [
          `${Math.round(total)} in of edge at ${setting} stitches per inch for ${cover.operation}, in the seams.`,
        ],
      },
    ];
  });

const groundOf = (action: Action): ((job: Layout) => Ground | undefined) =>
  oncePerTop((job) => {
    const groups = doneTo(job.plan.actions, action);
    if (groups.length === 0) return undefined;
    const { total, each } = roundUnits(groups, job);
    if (!job.tops.mapped) return { total, old: oldByShares(groups, total, job), over: undefined };
    return { total, ...groundOnTheMap(each, job) };
  });

const groundOnTheMap = (
  each: ReadonlyMap<string, number>,
  { plan, tops }: Layout,
): { readonly old: number; readonly over: ReadonlyMap<string, number> } => {
  const over = new Map<string, number>();
  let old = 0;
  const add = (at: string, inches: number): void => {
    old += inches;
    over.set(at, (over.get(at) ?? 0) + inches);
  };
  for (const [at, around] of each) {
    if (hasOld(tops.at(at))) add(at, around);
    else
      for (const { a, b, length } of joinsOf(plan.quilt.piecework, at)) {
        const neighbour = a === at ? b : a;
        if (hasOld(tops.at(neighbour))) add(neighbour, length);
      }
  }
  return { old, over };
};

const oldByShares = (groups: readonly GroupAction[], total: number, { tops }: Layout): number => {
  const all = groups.reduce((sum, { group }) => sum + group.count, 0);
  const missing = groups.reduce((sum, { group }) => sum + (group.state === 'missing' ? group.count : 0), 0);
  const neighbours = tops.share.old + tops.share.covered;
  return total * (1 - (missing / Math.max(1, all)) * (1 - neighbours));
};

const COVERS: readonly Cover[] = KINDS.map((kind) => ({ ...kind, ground: groundOf(kind.action) }));
