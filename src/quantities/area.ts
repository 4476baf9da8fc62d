import { MM_PER_INCH } from './length.ts';
import { decimal, type MeasureSystem, measureReader, type UnitTable } from './measure.ts';

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
