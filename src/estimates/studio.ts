import type { Figures } from '../figures/model.ts';
import type { MeasureSystem } from '../quantities/measure.ts';

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
