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

export interface LengthStyle {
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
