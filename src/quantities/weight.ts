import { decimal, type MeasureSystem, measureReader, type UnitTable } from './measure.ts';

/** The international pound, exact by definition. */
export const KG_PER_POUND = 0.45359237;

const POUNDS: UnitTable = {
  lb: 1,
  lbs: 1,
  pound: 1,
  pounds: 1,
  oz: 1 / 16,
  ounce: 1 / 16,
  ounces: 1 / 16,
  kg: 1 / KG_PER_POUND,
  g: 0.001 / KG_PER_POUND,
};

/** Pounds from `3.2 lb`, `3 lb 4 oz`, `1.5 kg`, `900 g`; undefined where there is no number or no unit. */
export const readWeight: (text: string) => number | undefined = measureReader(POUNDS);

/** `3.2 lb` or `1.5 kg`, to a tenth. RangeError if not finite. */
export const formatWeight = (pounds: number, system: MeasureSystem): string =>
  system === 'inches' ? `${decimal(pounds, 1)} lb` : `${decimal(pounds * KG_PER_POUND, 1)} kg`;
