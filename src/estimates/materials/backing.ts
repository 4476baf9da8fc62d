import { type Range, times } from '../../quantities/range.ts';
import { yards } from './yardage.ts';

export interface BackingCloth {
  readonly name: string;
  /** Usable width in inches. */
  readonly width: number;
  /** By the yard. */
  readonly price: Range;
}

export interface BackingPlan {
  readonly cloth: string;
  readonly panels: number;
  /** Which way the panels, and so the seams between them, run. */
  readonly run: 'down' | 'across';
  readonly panelLength: number;
  /** Inches of bolt, all panels together. */
  readonly length: number;
  readonly cost: Range;
}

/** Panels of one cloth for a top of `width` × `height` in, `extra` in on each side, running down and running across. */
export const backingPanels = (
  width: number,
  height: number,
  extra: number,
  cloth: BackingCloth,
): readonly BackingPlan[] => {
  const need = { width: width + 2 * extra, height: height + 2 * extra };
  const lay = (run: 'down' | 'across', over: number, panelLength: number): BackingPlan => {
    const panels = Math.ceil(over / cloth.width - 1e-9);
    const length = panels * panelLength;
    return { cloth: cloth.name, panels, run, panelLength, length, cost: times(cloth.price, yards(length)) };
  };
  return [lay('down', need.width, need.height), lay('across', need.height, need.width)];
};

/** The cheapest of all cloths both ways; of equal ones the one with fewer panels, because each seam is a ridge. */
export const cheapestBacking = (
  width: number,
  height: number,
  extra: number,
  cloths: readonly BackingCloth[],
): BackingPlan | undefined =>
  cloths
    .flatMap((cloth) => backingPanels(width, height, extra, cloth))
    .sort((a, b) => a.cost.likely - b.cost.likely || a.panels - b.panels || (a.cloth < b.cloth ? -1 : 1))[0];
