import type { Action } from '../../casebook/scales.ts';
import { type Ground, groundOf } from './ground.ts';
import { needleInUse } from './needles.ts';
import type { Job, Layout, Sewing } from './sewing.ts';
import { closeness, sewnLength } from './spoken.ts';
import { perforation, STITCHES, type StitchKind } from './stitches.ts';

interface Cover {
  readonly action: Action;
  readonly operation: string;
  readonly stitch: StitchKind;
  readonly setting: string;
  readonly ground: (job: Layout) => Ground | undefined;
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

const COVERS: readonly Cover[] = KINDS.map((kind) => ({ ...kind, ground: groundOf(kind.action) }));
