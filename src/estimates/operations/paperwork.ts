import type { Figures } from '../../figures/model.ts';
import { averaged, plus, type Range, times } from '../../quantities/range.ts';
import { hoursEach, type Job, type Operation } from './operation.ts';

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
