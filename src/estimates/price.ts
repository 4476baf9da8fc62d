import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import { averaged, type Range, sumIndependent, times } from '../quantities/range.ts';
import { roundMoney, roundMoneyUp } from '../quantities/rounding.ts';
import type { MaterialsEstimate, PriceEstimate } from './model.ts';

/**
 * What a plan costs the client: hours at the studio's rate, and materials. `low` and `high` are the 10th and 90th
 * percentile of that sum. `likely` is the sum asked for: the average with the contingency on top of the hours, which is
 * for what nobody foresees and so belongs to what is asked, not to what may come of it. Rounded, and never below the
 * smallest job. The floor is the average without contingency: whoever charges less works below the studio's own rate.
 * Leaving a quilt alone is advice that is given on the spot: nothing unforeseen can come of it, and no place is reserved.
 * A plan that opens the quilt has a hold point, because its second stage can only be priced once it is open; `opened`
 * says that it is, and then this is the price of the second stage.
 */
export const price = (
  plan: Plan,
  hours: Range,
  materials: MaterialsEstimate,
  studio: StudioSettings,
  figures: Figures,
  opened = false,
): PriceEstimate => {
  const advice = plan.treatment === 'leave';
  const stuff = sumIndependent(materials.items.map(({ cost }) => averaged(cost)));
  const work = times(hours, studio.ratePerHour);
  const sum = sumIndependent([work, stuff]);
  const contingency = advice ? 0 : work.likely * figures.number('studio.contingency');
  const asked = (amount: number): number => Math.max(studio.minimum, roundMoney(amount, studio.rounding));
  const likely = asked(sum.likely + contingency);
  return {
    low: asked(sum.low),
    likely,
    // Where hardly anything is uncertain the contingency is more than the range.
    high: Math.max(likely, asked(sum.high)),
    currency: studio.currency,
    floor: roundMoneyUp(sum.likely, studio.rounding),
    deposit: advice ? 0 : Math.min(likely, roundMoneyUp(likely * studio.deposit, studio.rounding)),
    materials: stuff,
    holdPoint: plan.opens && !opened,
  };
};

/** How one studio charges and measures. Money in its own currency. */
export interface StudioSettings {
  /** A sign such as `$`, or a word such as `EUR`. */
  readonly currency: string;
  readonly ratePerHour: number;
  /** The smallest job taken on. */
  readonly minimum: number;
  /** Prices are rounded to a multiple of this. */
  readonly rounding: number;
  /** Share of the price asked before work begins. */
  readonly deposit: number;
  readonly units: MeasureSystem;
}

/** What a new studio starts from, before it says anything of its own. */
export const defaultStudio = (figures: Figures): StudioSettings => ({
  currency: '$',
  ratePerHour: figures.number('studio.rate'),
  minimum: figures.number('studio.minimum'),
  rounding: figures.number('studio.rounding'),
  deposit: figures.number('studio.deposit'),
  units: 'inches',
});
