import { roundUp } from '../../quantities/rounding.ts';

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
