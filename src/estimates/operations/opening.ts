import { type Range, times } from '../../quantities/range.ts';
import { hoursEach, hoursFor, type Job, type Operation, sideOf, treated } from './operation.ts';

type Joining = 'none' | 'ties' | 'lines' | 'all_over';
interface Unpicking {
  readonly count: number;
  readonly hours: Range;
}

/** Hours to take out a bed quilt's quilting; where nobody knows how it was sewn, the range covers hand and machine. */
const quilting = ({ figures, found }: Job): Range => {
  const hand = hoursEach(figures, 'hours.unpick.hand_quilting');
  const machine = hoursEach(figures, 'hours.unpick.machine_quilting');
  if (found?.sewn?.piecing === 'hand') return hand;
  // Machine piecing says little of the quilting, which was long done by hand on machine-sewn tops too.
  return { low: hand.low, likely: (hand.likely + machine.likely) / 2, high: machine.high };
};

const lines = (job: Job): Unpicking => {
  const gap = job.found?.joining?.gap;
  const usual = job.figures.number('hours.unpick.usual_gap');
  const density = gap === undefined || gap <= 0 ? 1 : usual / gap;
  const count = job.bedQuilts * (1 - (job.found?.joining?.missing ?? 0)) * density;
  return { count, hours: times(quilting(job), count) };
};

const ties = (job: Job): Unpicking => {
  const { width, height } = job.plan.quilt.size;
  const gap = job.found?.joining?.gap ?? job.figures.number('hours.unpick.usual_gap');
  const knots = ((width * height) / gap ** 2) * (1 - (job.found?.joining?.missing ?? 0));
  return { count: job.bedQuilts, hours: hoursFor(job.figures, 'hours.unpick.tie', knots) };
};

/** What comes out before the layers part, by how the quilt was found joined. */
const UNPICKING: Readonly<Record<Joining, (job: Job) => Unpicking | undefined>> = {
  none: () => undefined,
  ties,
  lines,
  all_over: lines,
};

const unknown = (job: Job): Unpicking => ({
  count: job.bedQuilts,
  hours: times(hoursEach(job.figures, 'hours.unpick.unknown_joining'), job.bedQuilts),
});

/** Units that come out are unpicked all round. */
const joinsUnpicked = (job: Job): number =>
  treated(job, 'replace', 'remove')
    .filter(({ group }) => group.state !== 'missing')
    .reduce((sum, each) => sum + 4 * sideOf(job, each) * each.group.count, 0);

export const OPENING: readonly Operation[] = [
  {
    name: 'taking out the old joining',
    unit: 'bed quilts',
    work: (job) => {
      if (!job.plan.opens) return undefined;
      const kind = job.found?.joining?.kind;
      return kind === undefined ? unknown(job) : UNPICKING[kind](job);
    },
  },
  {
    name: 'unpicking joins',
    unit: 'in',
    figure: 'hours.unpick.join',
    work: (job) => {
      const count = joinsUnpicked(job);
      return count > 0 ? { count, hours: hoursFor(job.figures, 'hours.unpick.join', count) } : undefined;
    },
  },
];
