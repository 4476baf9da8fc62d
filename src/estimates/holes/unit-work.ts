import type { Action } from '../../casebook/scales.ts';
import { joinsOf } from '../../piecework/reading.ts';
import type { GroupAction } from '../../plans/model.ts';
import { closeness, formatLength, sewnLength } from '../../quantities/length.ts';
import { outside, roundUnits } from './outlines.ts';
import { doneTo, hasNew, hasOld } from './planned-top.ts';
import { closingStitch, originalPerInch } from './seams.ts';
import { type Job, type Layout, oncePerTop, type Sewing } from './sewing.ts';
import { needleInUse, perforation, STITCHES, type StitchKind } from './stitches.ts';

const outlines = oncePerTop((job) => {
  const groups = doneTo(job.plan.actions, 'restitch').filter(({ group }) => group.state !== 'missing');
  return groups.length === 0 ? undefined : roundUnits(groups, job);
});

/** Seams within units sewn again as joins are: two old cloths a hole, re-entering old holes by hand. */
export const restitchUnits = (job: Job): readonly Sewing[] => {
  const round = outlines(job);
  if (round === undefined) return [];
  const { total, each } = round;
  const share = job.figures.number('stitching.restitched');
  const length = total * share;
  const stitch = closingStitch(job);
  const holes = 2 * length * stitch.perInch;
  return [
    {
      operation: 'seams within units sewn again',
      amount: length,
      unit: 'in',
      punctures: [
        {
          layer: 'allowance',
          holes,
          reused: holes * stitch.reused,
          ...(job.tops.mapped ? { over: () => each } : {}),
        },
      ],
      perforation: stitch.perforation,
      removed: 2 * length * originalPerInch(job),
      assumptions: [`A unit is restitched along ${Math.round(share * 100)} % of its outline.`],
    },
  ];
};

/** Stuffed units opened along a seam, filled and closed with a ladder stitch through both folds. */
export const restuffUnits = (job: Job): readonly Sewing[] => {
  const groups = doneTo(job.plan.actions, 'restuff').filter(({ group }) => group.state !== 'missing');
  const count = groups.reduce((sum, { group }) => sum + group.count, 0);
  if (count === 0) return [];
  const opening = job.figures.number('stitching.restuffed');
  const length = count * opening;
  const holes = 2 * length * STITCHES.ladder.ground(job.figures.number('stitching.ladder'));
  const over = new Map(groups.flatMap(({ group }) => (group.where ?? []).map((at) => [at, 1] as const)));
  return [
    {
      operation: 'units stuffed again',
      amount: length,
      unit: 'in',
      punctures: [{ layer: 'allowance', holes, reused: 0, ...(job.tops.mapped ? { over: () => over } : {}) }],
      perforation: 0,
      removed: 2 * length * originalPerInch(job),
      assumptions: [
        `A stuffed unit is opened over ${formatLength(opening, job.context.system ?? 'inches')}.`,
      ],
    },
  ];
};

interface Cover {
  readonly action: Action;
  readonly operation: string;
  readonly stitch: StitchKind;
  readonly setting: string;
  readonly ground: (job: Layout) => CoverEdges | undefined;
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
    const { total, old, strips, fresh, over } = ground;
    const setting = job.figures.number(cover.setting);
    const stitch = STITCHES[cover.stitch];
    const perInch = stitch.ground(setting);
    const { system } = job.context;
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
          ...(strips > 0 ? [{ layer: 'allowance', holes: strips * perInch, reused: 0 } as const] : []),
          { layer: 'new cloth', holes: fresh * perInch + total * stitch.upper(setting), reused: 0 },
        ],
        perforation:
          old + strips > 0 ? perforation(cover.stitch, setting, needleInUse('hand', job.figures)) : 0,
        removed: 0,
        assumptions: [
          `${sewnLength(total, system)} of edge at ${closeness(setting, 'stitches', system)} for ${cover.operation}, in the seams.`,
        ],
      },
    ];
  });

/** What the units under one action are sewn down on, all round; undefined where there are none. */
const groundOf = (action: Action): ((job: Layout) => CoverEdges | undefined) =>
  oncePerTop((job) => {
    const groups = doneTo(job.plan.actions, action);
    if (groups.length === 0) return undefined;
    const { total, each } = roundUnits(groups, job);
    return { total, ...(job.tops.mapped ? groundOnTheMap(each, job) : groundByShares(groups, total, job)) };
  });

/** A unit's own cloth, or where it is missing whatever lies beside it: units, strips, a border, or nothing. */
const groundOnTheMap = (
  each: ReadonlyMap<string, number>,
  { plan: { quilt }, tops }: Layout,
): Omit<CoverEdges, 'total'> => {
  const over = new Map<string, number>();
  let [old, strips, fresh] = [0, 0, 0];
  const add = (at: string, inches: number): void => {
    old += inches;
    over.set(at, (over.get(at) ?? 0) + inches);
  };
  for (const [at, inches] of each) {
    if (hasOld(tops.at(at))) {
      add(at, inches);
      continue;
    }
    const outer = outside(quilt).get(at);
    strips += outer?.border ?? 0;
    if (quilt.piecework.kind === 'sashed') strips += inches - (outer?.border ?? 0) - (outer?.bare ?? 0);
    else
      for (const { a, b, length } of joinsOf(quilt.piecework, at)) {
        const neighbour = a === at ? b : a;
        if (hasOld(tops.at(neighbour))) add(neighbour, length);
        else if (hasNew(tops.at(neighbour))) fresh += length;
      }
  }
  return { old, strips, fresh, over };
};

const groundByShares = (
  groups: readonly GroupAction[],
  total: number,
  { tops }: Layout,
): Omit<CoverEdges, 'total'> => {
  const all = groups.reduce((sum, { group }) => sum + group.count, 0);
  const missing = groups.reduce((sum, { group }) => sum + (group.state === 'missing' ? group.count : 0), 0);
  const bare = (total * missing) / Math.max(1, all);
  const neighbours = tops.share.old + tops.share.covered;
  return { old: total - bare * (1 - neighbours), strips: 0, fresh: bare * tops.share.new, over: undefined };
};

const COVERS: readonly Cover[] = KINDS.map((kind) => ({ ...kind, ground: groundOf(kind.action) }));

/** Inches round the units so covered: all, those over old cloth, those over new, and how old falls on the units. */
interface CoverEdges {
  readonly total: number;
  readonly old: number;
  /** Old strips and borders, which are on no map. */
  readonly strips: number;
  readonly fresh: number;
  readonly over: ReadonlyMap<string, number> | undefined;
}
