import type { GroupAction } from '../../plans/model.ts';
import { type Range, times } from '../../quantities/range.ts';
import { doneTo } from '../holes/planned-top.ts';
import { type Panels, panels } from '../panels.ts';
import { resewn } from '../resewn.ts';
import {
  counted,
  hoursEach,
  hoursFor,
  hoursOf,
  type Job,
  type Operation,
  sideOf,
  together,
  treated,
  unitsOf,
} from './operation.ts';

/** Hexagons in one rosette: one in the middle and six round it. */
const IN_ROSETTE = 7;

/** Patching goes by the length of the edge turned under. */
const patchHours = (job: Job, each: GroupAction): Range =>
  times(
    hoursFor(job.figures, 'hours.unit.patch_over', each.group.count),
    Math.max(1, sideOf(job, each) / job.figures.number('hours.unit.patch_side')),
  );

/** An overlay goes by area. */
const areas =
  (action: 'overlay' | 'support') =>
  (job: Job): number =>
    treated(job, action).reduce(
      (sum, each) =>
        sum +
        each.group.count *
          Math.max(1, (sideOf(job, each) / job.figures.number('hours.unit.overlay_side')) ** 2),
      0,
    );

const kind = ({ plan }: Job): 'rosettes' | 'motifs' | 'patches' | 'blocks' => {
  if (plan.quilt.construction === 'hexagon') return 'rosettes';
  if (plan.quilt.construction === 'applique') return 'motifs';
  return plan.quilt.counting === 'patches' ? 'patches' : 'blocks';
};

const replaced = (job: Job, of: ReturnType<typeof kind>): number =>
  kind(job) === of ? unitsOf(treated(job, 'replace')) : 0;

/** Making one block: by its pieces, but never quicker than a plain one; where pieces are not on record, plain to pieced. */
const makeBlock = (job: Job): Range => {
  const plain = hoursEach(job.figures, 'hours.unit.plain_block');
  const pieced = hoursEach(job.figures, 'hours.unit.pieced_block');
  const pieces = job.plan.quilt.piecework.piecesPerUnit;
  if (pieces === undefined) return { ...plain, high: pieced.likely };
  const scaled = times(pieced, pieces / job.figures.number('hours.unit.pieces_of_that_block'));
  return {
    low: Math.max(plain.low, scaled.low),
    likely: Math.max(plain.likely, scaled.likely),
    high: Math.max(plain.high, scaled.high),
  };
};

const byMachine = ({ plan }: Job): boolean => plan.resewn.by === 'machine';

/** New blocks and grounds of motifs are sewn together where they lie side by side, and set in by their outline. */
const inPanels = (job: Job): Panels =>
  replaced(job, 'blocks') + replaced(job, 'motifs') > 0 ? panels(job.plan).set : { outline: 0, inner: 0 };

export const UNITS: readonly Operation[] = [
  {
    name: 'patching over',
    unit: 'patches',
    figure: 'hours.unit.patch_over',
    work: (job) => {
      const groups = treated(job, 'patch_over');
      // A single patch put in the place of an old one is the same work as one laid over it.
      const all = [...groups, ...(kind(job) === 'patches' ? treated(job, 'replace') : [])];
      const count = unitsOf(all);
      return count > 0 ? { count, hours: together(all.map((each) => patchHours(job, each))) } : undefined;
    },
  },
  counted(
    'replacing rosettes',
    'rosettes',
    'hours.unit.rosette',
    (job) => replaced(job, 'rosettes') / IN_ROSETTE,
  ),
  {
    name: 'making blocks',
    unit: 'blocks',
    work: (job) => {
      const count = replaced(job, 'blocks');
      return count > 0 ? { count, hours: hoursOf(makeBlock(job), count, job.figures) } : undefined;
    },
  },
  counted('moving motifs to new ground', 'motifs', 'hours.unit.motif', (job) => replaced(job, 'motifs')),
  counted('joining new blocks by hand', 'in', 'hours.seam.hand', (job) =>
    byMachine(job) ? 0 : inPanels(job).inner,
  ),
  counted('joining new blocks by machine', 'in', 'hours.seam.machine', (job) =>
    byMachine(job) ? inPanels(job).inner : 0,
  ),
  counted(
    'fitting and setting in',
    'blocks',
    'hours.unit.set_in',
    (job) => inPanels(job).outline / (4 * job.figures.number('hours.unit.set_in_side')),
  ),
  counted('overlays', 'patches', 'hours.unit.overlay', areas('overlay')),
  counted('supports', 'patches', 'hours.unit.support', areas('support')),
  counted('filling flat units', 'units', 'hours.unit.restuff', (job) =>
    unitsOf(doneTo(job.plan.actions, 'restuff')),
  ),
];

/** Open joins, and one side of each unit that is to be sewn down again. */
const length = (job: Job): number => {
  const sides = treated(job, 'restitch').reduce((sum, each) => sum + sideOf(job, each) * each.group.count, 0);
  return resewn(job.plan).inches + sides;
};

/** A seam in a closed quilt is closed by hand from the front; in an open one it is sewn from inside. */
export const SEAMS: readonly Operation[] = [
  counted('closing seams from the front', 'in', 'hours.seam.ladder', (job) =>
    byMachine(job) || job.inside ? 0 : length(job),
  ),
  counted('resewing joins by hand', 'in', 'hours.seam.hand', (job) =>
    !byMachine(job) && job.inside ? length(job) : 0,
  ),
  counted('resewing joins by machine', 'in', 'hours.seam.machine', (job) =>
    byMachine(job) ? length(job) : 0,
  ),
];
