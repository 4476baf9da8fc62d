import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import { type Range, sumIndependent, times } from '../quantities/range.ts';
import { roundMoney, roundMoneyUp } from '../quantities/rounding.ts';
import type { MaterialsEstimate, PriceEstimate } from './model.ts';

/**
 * What a plan costs the client: hours with the contingency on top, at the studio's rate, and materials, as the 10th
 * percentile, average and 90th percentile of their sum; rounded, and never below the smallest job. The floor is the likely hours
 * without contingency and the likely materials: whoever charges less works below the studio's own rate.
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
  const stuff = sumIndependent(materials.items.map(({ cost }) => cost));
  const contingency = 1 + figures.number('studio.contingency');
  const sum = sumIndependent([times(hours, studio.ratePerHour * contingency), stuff]);
  const asked = (amount: number): number => Math.max(studio.minimum, roundMoney(amount, studio.rounding));
  const likely = asked(sum.likely);
  return {
    low: asked(sum.low),
    likely,
    high: asked(sum.high),
    currency: studio.currency,
    floor: roundMoneyUp(hours.likely * studio.ratePerHour + stuff.likely, studio.rounding),
    deposit: Math.min(likely, roundMoneyUp(likely * studio.deposit, studio.rounding)),
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
