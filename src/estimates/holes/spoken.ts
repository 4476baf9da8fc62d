import { MM_PER_INCH } from '../../quantities/length.ts';
import { decimal, type MeasureSystem } from '../../quantities/measure.ts';

const CM_PER_INCH = MM_PER_INCH / 10;

/** A length sewn, `360 in` or `914 cm`: whole, because nobody follows a seam more closely than that. */
export const sewnLength = (inches: number, system: MeasureSystem = 'inches'): string =>
  system === 'inches' ? `${decimal(inches, 0)} in` : `${decimal(inches * CM_PER_INCH, 0)} cm`;

/** How close stitches or holes stand: `8 stitches per inch`, `3.1 stitches per cm`. */
export const closeness = (perInch: number, what: string, system: MeasureSystem = 'inches'): string =>
  system === 'inches'
    ? `${decimal(perInch, 1)} ${what} per inch`
    : `${decimal(perInch / CM_PER_INCH, 1)} ${what} per cm`;
