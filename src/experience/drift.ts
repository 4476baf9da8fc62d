import { clopperPearson, type Interval } from '../statistics/intervals.ts';
import type { FindingAgreement } from './agreement.ts';

/** How one helper grades beside the others: harsher gives worse grades and higher counts of damage. */
export interface Drift {
  readonly helper: string;
  /** Grades and ordered choices judged by this helper and at least one other. */
  readonly n: number;
  readonly harsher: number;
  readonly softer: number;
  /** Mean steps above the mean of the others; positive is harsher. */
  readonly meanSteps: number;
  /** Exact 95 % interval for the share that is harsher among those that differ; undefined where none differ. */
  readonly interval: Interval | undefined;
  /** `harsher` or `softer` only where the interval leaves one half out. */
  readonly verdict: 'harsher' | 'softer' | 'no drift shown';
}

const LEVEL = 0.95;

/** Every helper against the others, over findings on an ordered scale from harmless to worse. */
export const drift = (agreements: readonly FindingAgreement[]): Drift[] => {
  const things = agreements.filter(({ scale }) => scale === 'ordinal').flatMap((one) => one.things);
  const helpers = [...new Set(things.flatMap(({ ranks }) => [...ranks.keys()]))].sort();
  return helpers.map((helper): Drift => {
    const steps = things.flatMap(({ ranks }) => {
      const mine = ranks.get(helper);
      const others = [...ranks].filter(([name]) => name !== helper).map(([, rank]) => rank);
      return mine === undefined || others.length === 0
        ? []
        : [mine - others.reduce((sum, rank) => sum + rank, 0) / others.length];
    });
    const harsher = steps.filter((step) => step > 0).length;
    const softer = steps.filter((step) => step < 0).length;
    const differing = harsher + softer;
    const interval = differing === 0 ? undefined : clopperPearson(harsher, differing, LEVEL);
    return {
      helper,
      n: steps.length,
      harsher,
      softer,
      meanSteps: steps.length === 0 ? 0 : steps.reduce((sum, step) => sum + step, 0) / steps.length,
      interval,
      verdict:
        interval !== undefined && interval.low > 0.5
          ? 'harsher'
          : interval !== undefined && interval.high < 0.5
            ? 'softer'
            : 'no drift shown',
    };
  });
};
