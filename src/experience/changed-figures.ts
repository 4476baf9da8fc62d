import type { Figure, Figures } from '../figures/model.ts';

/** The same names of figures, each looked up another way. */
const lookedUp = (figures: Figures, figure: (id: string) => Figure): Figures => ({
  figure,
  number: (id) => figure(id).likely,
  range: (id) => {
    const { low, likely, high } = figure(id);
    return { low, likely, high };
  },
  has: figures.has,
  below: figures.below,
});

/** The same figures with some of them multiplied. */
export const withFactors = (figures: Figures, factors: ReadonlyMap<string, number>): Figures =>
  lookedUp(figures, (id) => {
    const found = figures.figure(id);
    const factor = factors.get(id);
    if (factor === undefined) return found;
    return { ...found, low: found.low * factor, likely: found.likely * factor, high: found.high * factor };
  });

/** The same figures with some of them replaced. */
export const withReplaced = (figures: Figures, replaced: ReadonlyMap<string, Figure>): Figures =>
  lookedUp(figures, (id) => replaced.get(id) ?? figures.figure(id));
