import type { UnitState } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { averaged, plus, type Range, SWANSON, times } from '../../quantities/range.ts';
import { betaBinomial, productPercentile } from '../model.ts';
import { panels } from '../panels.ts';
import { type OldJoining, oldJoining, putsBack } from '../resewn.ts';
import { counted, hoursEach, hoursFor, type Job, type Operation, treated, unitsOf } from './operation.ts';

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
  return { count, hours: times(averaged(quilting(job)), count) };
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
  hours: times(averaged(hoursEach(job.figures, 'hours.unpick.unknown_joining')), job.bedQuilts),
});

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
  counted('unpicking joins', 'in', 'hours.unpick.join', ({ plan }) => panels(plan).out.outline),
];

const keptUnits = ({ asked }: Job, wanted: (state: UnitState) => boolean): number =>
  unitsOf(
    treated({ plan: asked }, 'keep', 'restitch', 'restuff').filter(({ group: { state } }) => wanted(state)),
  );

const SIDES = ['low', 'likely', 'high'] as const;

const patchesAmong = (units: number, share: number, figures: Figures): ReturnType<Operation['work']> => {
  if (units === 0) return undefined;
  const strength = figures.number('hours.hidden.strength');
  const found = betaBinomial(units, share * strength, (1 - share) * strength);
  const each = hoursEach(figures, 'hours.unit.patch_over');
  const factors = SIDES.map((side) => ({ value: each[side], chance: SWANSON[side] }));
  const at = (level: number): number => productPercentile(found, factors, level);
  const count = units * share;
  const likely = count * averaged(each).likely;
  // So few may be expected that the 90th percentile is still none.
  return { count, hours: { low: Math.min(at(0.1), likely), likely, high: Math.max(at(0.9), likely) } };
};

/** The share damaged where nobody has looked: three figures, each thought equally likely. */
const unseenShare = (figures: Figures): number => {
  const { low, likely, high } = figures.range('readings.units_lost');
  return (low + likely + high) / 3;
};

/**
 * Patches found only once the quilt is open, or where nobody has looked yet. How many follows a beta-binomial
 * distribution over those units; what each takes is one figure for all of them. Low and high are percentiles of the
 * product, so the range may begin at nothing; count and likely hours are the expected ones.
 */
export const HIDDEN: readonly Operation[] = [
  {
    name: 'patches found on opening',
    unit: 'patches',
    work: (job) =>
      !job.plan.opens || job.opened
        ? undefined
        : patchesAmong(
            keptUnits(job, (state) => state !== 'unseen'),
            job.figures.number('hours.hidden.share'),
            job.figures,
          ),
  },
  {
    name: 'patches where nobody has looked yet',
    unit: 'patches',
    work: (job) =>
      job.plan.treatment === 'leave'
        ? undefined
        : patchesAmong(
            keptUnits(job, (state) => state === 'unseen'),
            unseenShare(job.figures),
            job.figures,
          ),
  },
];

const isRelayered = ({ plan, rebound }: Job): boolean => rebound && plan.joining !== 'none';

/** The old joining that is put back where nothing new takes its place. */
const missing = ({ plan, found, figures }: Job): OldJoining => {
  const share = found?.joining?.missing ?? 0;
  const old = oldJoining(plan.quilt.size, found?.joining?.kind, found?.joining?.gap, figures);
  return putsBack(plan) && old !== undefined
    ? { knots: old.knots * share, lines: old.lines * share }
    : { knots: 0, lines: 0 };
};

/** Layers that stay together are pinned all the same before lines are sewn through them. */
const isPinned = ({ plan, rebound }: Job): boolean => !rebound && plan.joining === 'lines';

export const LAYERS: readonly Operation[] = [
  counted('putting back missing ties', 'ties', 'hours.tie', (job) => missing(job).knots),
  counted('putting back missing lines by hand', 'in', 'hours.line.hand', (job) => missing(job).lines),
  counted('making up the backing', 'backings', 'hours.backing', ({ plan }) =>
    plan.backing === 'add' || plan.backing === 'replace' ? 1 : 0,
  ),
  counted('layering and basting', 'bed quilts', 'hours.baste', (job) =>
    isRelayered(job) ? job.bedQuilts : 0,
  ),
  counted('pinning the layers', 'bed quilts', 'hours.pin', (job) => (isPinned(job) ? job.bedQuilts : 0)),
  counted('ties and tacks', 'ties', 'hours.tie', ({ points }) => points),
  counted('lines by machine', 'in', 'hours.line.machine', ({ plan, lines }) =>
    plan.sewnBy === 'machine' ? lines : 0,
  ),
  counted('lines by hand', 'in', 'hours.line.hand', ({ plan, lines }) =>
    plan.sewnBy === 'hand' ? lines : 0,
  ),
];

export const EDGES: readonly Operation[] = [
  counted('making and attaching the binding', 'quilt', 'hours.binding.make', ({ rebound }) =>
    rebound ? 1 : 0,
  ),
  counted('attaching the binding by hand', 'in', 'hours.seam.hand', ({ rebound, perimeter, plan }) =>
    rebound && plan.sewnBy === 'hand' ? perimeter : 0,
  ),
  counted('finishing the binding by hand', 'in', 'hours.binding.finish', ({ rebound, perimeter }) =>
    rebound ? perimeter : 0,
  ),
  counted('hanging sleeve', 'sleeves', 'hours.sleeve', ({ hung, plan }) =>
    hung && plan.treatment !== 'leave' ? 1 : 0,
  ),
];

/** An operation that goes with the size of the job: `bench` are the hours of all other work. */
interface Paper extends Omit<Operation, 'work'> {
  readonly work: (job: Job, bench: number) => { readonly count: number; readonly hours: Range };
}

/** How a whole survey goes with size: part of it is the same for every quilt, the rest follows the side of the quilt. */
const bySize = ({ bedQuilts, figures }: Job): number => {
  const fixed = figures.number('hours.survey_by.fixed');
  const scale = fixed + (1 - fixed) * Math.sqrt(bedQuilts);
  return Math.min(scale, figures.number('hours.survey_by.at_most'));
};

/**
 * A quilt left alone is looked over; the more is to be done, the more of a whole survey it takes, up to all of it. A
 * look is never longer than the whole survey of so small a quilt.
 */
const surveyHours = (job: Job, bench: number): Range => {
  const { figures } = job;
  const whole = times(hoursEach(figures, 'hours.survey'), bySize(job));
  const least = hoursEach(figures, 'hours.survey_by.least');
  const look: Range = {
    low: Math.min(least.low, whole.low),
    likely: Math.min(least.likely, whole.likely),
    high: Math.min(least.high, whole.high),
  };
  const part = Math.min(1, bench / figures.number('hours.survey_by.whole_from'));
  return plus(times(look, 1 - part), times(whole, part));
};

const reportHours = (figures: Figures, bench: number): Range => {
  const fixed = figures.number('hours.report_by.fixed');
  const scale = fixed + (1 - fixed) * (bench / figures.number('hours.report_by.job'));
  return times(
    hoursEach(figures, 'hours.report'),
    Math.min(scale, figures.number('hours.report_by.at_most')),
  );
};

/** Every quilt is looked at, even one that is left as it is. */
export const SURVEY: Paper = {
  name: 'intake, photographs and survey',
  unit: 'quilt',
  figure: 'hours.survey',
  work: (job, bench) => ({ count: 1, hours: averaged(surveyHours(job, bench)) }),
};

/** And the client is told what was found. */
export const REPORT: Paper = {
  name: 'report, packing and messages',
  unit: 'quilt',
  figure: 'hours.report',
  work: ({ figures }, bench) => ({ count: 1, hours: averaged(reportHours(figures, bench)) }),
};
