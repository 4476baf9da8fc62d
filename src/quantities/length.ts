import { decimal, type MeasureSystem, measureReader, type UnitTable } from './measure.ts';
import { roundNearest, roundUp } from './rounding.ts';

/** Exact by definition since 1959. */
export const MM_PER_INCH = 25.4;

const IMPERIAL: UnitTable = {
  in: 1,
  inch: 1,
  inches: 1,
  '"': 1,
  ft: 12,
  foot: 12,
  feet: 12,
  "'": 12,
  yd: 36,
  yds: 36,
  yard: 36,
  yards: 36,
};
const METRIC: UnitTable = {
  mm: 1 / MM_PER_INCH,
  cm: 10 / MM_PER_INCH,
  m: 1000 / MM_PER_INCH,
};

const imperial = measureReader(IMPERIAL);
const metric = measureReader(METRIC);

/**
 * Inches from `4 1/2 in`, `4½"`, `5 ft 6 in`, `2 yd`, `10 cm`; undefined where there is no number, no unit, or units
 * of both systems.
 */
export const readLength = (text: string): number | undefined => imperial(text) ?? metric(text);

/** The system a length is written in; undefined where it is none. */
export const systemOf = (text: string): MeasureSystem | undefined => {
  if (imperial(text) !== undefined) return 'inches';
  return metric(text) === undefined ? undefined : 'metric';
};

interface LengthStyle {
  /** Parts of an inch; 8 unless given. Metric is always shown to the millimetre. */
  readonly denominator?: 8 | 16;
  /** `up` for cutting, where short is useless; `nearest` unless given. */
  readonly rounding?: 'nearest' | 'up';
}

/** `4 1/2 in` or `11.4 cm`. Throws RangeError for what is not finite. */
export const formatLength = (inches: number, system: MeasureSystem, style: LengthStyle = {}): string => {
  if (!Number.isFinite(inches)) throw new RangeError(`Not a length: ${inches}`);
  const round = style.rounding === 'up' ? roundUp : roundNearest;
  if (system === 'metric') return `${decimal(round((inches * MM_PER_INCH) / 10, 0.1), 1)} cm`;
  const denominator = style.denominator ?? 8;
  const parts = round(Math.abs(inches) * denominator, 1);
  return `${inches < 0 && parts > 0 ? '-' : ''}${mixed(parts, denominator)} in`;
};

const mixed = (parts: number, denominator: number): string => {
  const whole = Math.floor(parts / denominator);
  let top = parts % denominator;
  let bottom = denominator;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${whole}`;
  return whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
};

const CM_PER_INCH = MM_PER_INCH / 10;

/** A length sewn, `360 in` or `914 cm`: whole, because nobody follows a seam more closely than that. */
export const sewnLength = (inches: number, system: MeasureSystem = 'inches'): string =>
  system === 'inches' ? `${decimal(inches, 0)} in` : `${decimal(inches * CM_PER_INCH, 0)} cm`;

/** How close stitches or holes stand: `8 stitches per inch`, `3.1 stitches per cm`. */
export const closeness = (perInch: number, what: string, system: MeasureSystem = 'inches'): string =>
  system === 'inches'
    ? `${decimal(perInch, 1)} ${what} per inch`
    : `${decimal(perInch / CM_PER_INCH, 1)} ${what} per cm`;

/** Square centimetres in a square inch, exactly 6.4516. */
const CM2 = (MM_PER_INCH / 10) ** 2;

const bySide: UnitTable = {
  in: 1,
  inch: 1,
  inches: 1,
  ft: 144,
  foot: 144,
  feet: 144,
  yd: 1296,
  yard: 1296,
  yards: 1296,
  mm: 0.01 / CM2,
  cm: 1 / CM2,
  m: 10_000 / CM2,
};

const SQUARE_INCHES: UnitTable = Object.fromEntries(
  Object.entries(bySide).flatMap(([side, size]) => [
    [`${side}2`, size],
    [`${side} 2`, size],
    [`sq ${side}`, size],
    [`sq. ${side}`, size],
    [`square ${side}`, size],
  ]),
);

/** Square inches from `12 in2`, `12 sq in`, `0.3 m²`, `30 cm2`; undefined where there is no number or no unit. */
export const readArea: (text: string) => number | undefined = measureReader(SQUARE_INCHES);

/** `12 in²` to a tenth, or `30 cm²` to a whole one, from 0.1 m² on `0.3 m²` to a hundredth. RangeError if not finite. */
export const formatArea = (squareInches: number, system: MeasureSystem): string => {
  if (system === 'inches') return `${decimal(squareInches, 1)} in²`;
  const cm2 = squareInches * CM2;
  return Math.abs(cm2) < 1000 ? `${decimal(cm2, 0)} cm²` : `${decimal(cm2 / 10_000, 2)} m²`;
};
