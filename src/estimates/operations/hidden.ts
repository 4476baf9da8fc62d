import type { Figures } from '../../figures/model.ts';
import { oncePer } from '../../quantities/once.ts';
import { betaBinomial, productPercentile } from '../beta-binomial.ts';
import { hoursEach, type Job, type Operation, treated, unitsOf } from './operation.ts';

const thoughtSound = (job: Job): number => unitsOf(treated(job, 'keep', 'restitch', 'restuff'));

/** Chances that stand for a range's low, likely and high (Swanson's rule, from memory). */
const WEIGHTS = { low: 0.3, likely: 0.4, high: 0.3 } as const;
const SIDES = ['low', 'likely', 'high'] as const;

/** Hours for them among so many units thought sound: the same for every plan that opens the quilt. */
const expected = oncePer((_: Figures) => new Map<number, ReturnType<Operation['work']>>());

const hiddenWork = (units: number, figures: Figures): ReturnType<Operation['work']> => {
  const share = figures.number('hours.hidden.share');
  const strength = figures.number('hours.hidden.strength');
  const found = betaBinomial(units, share * strength, (1 - share) * strength);
  const each = hoursEach(figures, 'hours.unit.patch_over');
  const factors = SIDES.map((side) => ({ value: each[side], chance: WEIGHTS[side] }));
  const at = (level: number): number => productPercentile(found, factors, level);
  const count = units * share;
  const likely = count * each.likely;
  // So few may be expected that the 90th percentile is still none.
  return { count, hours: { low: Math.min(at(0.1), likely), likely, high: Math.max(at(0.9), likely) } };
};

/**
 * Patches found only once the quilt is open. How many follows a beta-binomial distribution over the units thought
 * sound; what each takes is one figure for all of them. Low and high are percentiles of the product, so the range may
 * begin at nothing; count and likely hours are the expected ones.
 */
export const HIDDEN: readonly Operation[] = [
  {
    name: 'patches found on opening',
    unit: 'patches',
    work: (job) => {
      const units = thoughtSound(job);
      if (!job.plan.opens || job.opened || units === 0) return undefined;
      const known = expected(job.figures);
      const work = known.get(units) ?? hiddenWork(units, job.figures);
      known.set(units, work);
      return work;
    },
  },
];
