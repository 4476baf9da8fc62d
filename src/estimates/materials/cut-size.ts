import { MM_PER_INCH } from '../../quantities/length.ts';
import type { MeasureSystem } from '../../quantities/measure.ts';
import { fits, roundUp } from '../../quantities/rounding.ts';

/**
 * Cut sizes in inches from finished sizes (or from a measured gap, which stands in for the finished size), each
 * rounded up to `step`, since a piece cut short cannot be used. `allowance` is one seam allowance. With a quarter
 * inch the additions for triangles are the trade's 7/8 and 1 1/4: a sharp corner spends √2 times the allowance, and the
 * trade rounds the sums up (from 0.854 and 1.207 in).
 */
export interface Cutting {
  readonly allowance: number;
  readonly step: number;
}

/** A square or one side of a rectangle. */
export const squareCut = (finished: number, { allowance, step }: Cutting): number =>
  roundUp(finished + 2 * allowance, step);

/** The square that gives two triangles with the finished size as their short side. */
export const halfSquareCut = (finished: number, { allowance, step }: Cutting): number =>
  roundUp(finished + 3.5 * allowance, step);

/** The square that gives four triangles with the finished size as their long side. */
export const quarterSquareCut = (finished: number, { allowance, step }: Cutting): number =>
  roundUp(finished + 5 * allowance, step);

/** The square that gives four side triangles for blocks on point: their long side is the block's diagonal. */
export const settingCut = (block: number, cutting: Cutting): number =>
  quarterSquareCut(block * Math.SQRT2, cutting);

/** The square that gives two corner triangles for blocks on point: their long side is the block's side. */
export const cornerCut = (block: number, cutting: Cutting): number =>
  halfSquareCut(block / Math.SQRT2, cutting);

const INCHES_PER_YARD = 36;

/** Spare pieces cut with `pieces`: the share, and at least one; none where nothing is cut. */
export const sparesFor = (pieces: number, share: number): number =>
  pieces > 0 ? Math.max(1, Math.ceil(pieces * share - 1e-9)) : 0;

interface Strips {
  readonly piecesEach: number;
  readonly strips: number;
  /** Inches of cloth off the bolt. */
  readonly length: number;
}

/**
 * Strips cut across a bolt for `pieces` of `width` × `height`, turned whichever way takes less cloth.
 * Undefined where a piece is wider than the bolt both ways.
 */
export const stripsFor = (
  pieces: number,
  piece: { readonly width: number; readonly height: number },
  usable: number,
): Strips | undefined => {
  const turned = [
    { across: piece.width, deep: piece.height },
    { across: piece.height, deep: piece.width },
  ].flatMap(({ across, deep }) => {
    const piecesEach = fits(usable, across);
    if (piecesEach === 0) return [];
    const strips = Math.ceil(pieces / piecesEach);
    return [{ piecesEach, strips, length: strips * deep }];
  });
  return turned.sort((a, b) => a.length - b.length)[0];
};

/** Yards from inches of bolt, before rounding to what shops cut. */
export const yards = (inches: number): number => inches / INCHES_PER_YARD;

/** Yards to buy: waste added, rounded up to what shops cut. */
export const yardsToBuy = (inches: number, waste: number, step: number): number =>
  roundUp(yards(inches) * (1 + waste), step);

/** Whole yards or metres of thread, `18 yd` or `17 m`, rounded up. */
export const threadLength = (yards: number, system: MeasureSystem): string =>
  system === 'inches'
    ? `${Math.ceil(yards)} yd`
    : `${Math.ceil((yards * INCHES_PER_YARD * MM_PER_INCH) / 1000)} m`;
