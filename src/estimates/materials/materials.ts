import type { Figures } from '../../figures/model.ts';
import type { Plan } from '../../plans/model.ts';
import { asSewn } from '../as-sewn.ts';
import type { Circumstances, MaterialsEstimate } from '../model.ts';
import { basesOfStuffed, matchingCloth, overlayNet, supportCloth } from './cloth.ts';
import { backingCloth, bindingCloth, newBatting, sleeveCloth, stuffing } from './layers.ts';
import { sewingThread, tieThread } from './sewing.ts';
import { goShopping, type Shelf } from './shopping.ts';

/** In the order a shopping list is read: cloth, layers, edges, thread. */
const SHELVES: readonly Shelf[] = [
  matchingCloth,
  basesOfStuffed,
  overlayNet,
  supportCloth,
  backingCloth,
  newBatting,
  stuffing,
  bindingCloth,
  sleeveCloth,
  tieThread,
  sewingThread,
];

/**
 * What a plan takes, with cut sizes, spares and costs in the studio's currency. Sizes that are not on record become
 * a note and a wider cost. Throws ProblemError `missing-figure` where the figures are incomplete.
 */
export const materials = (
  plan: Plan,
  figures: Figures,
  circumstances: Circumstances = {},
): MaterialsEstimate => {
  const shopping = goShopping(asSewn(plan), figures, circumstances);
  return { items: SHELVES.flatMap((shelf) => shelf(shopping)) };
};
