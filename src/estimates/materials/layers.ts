import { formatLength } from '../../quantities/length.ts';
import { times } from '../../quantities/range.ts';
import { cheapestBacking } from './backing.ts';
import { battingNeed, smallestBatting } from './batting.ts';
import { type Shelf, sizeText } from './shopping.ts';
import { yardsToBuy } from './yardage.ts';

const SQUARE_YARD = 1296;

/** A new backing in whichever cloth and direction costs least. */
export const backingCloth: Shelf = (shopping) => {
  const { plan, figures, system } = shopping;
  if (plan.backing !== 'add' && plan.backing !== 'replace') return [];
  const extra = figures.number('materials.backing.each_side');
  const cloths = figures.below('materials.backing.cloth').map((name) => ({
    name,
    width: figures.number(`materials.backing.cloth.${name}.width`),
    price: figures.range(`materials.backing.cloth.${name}.price`),
  }));
  const best = cheapestBacking(plan.quilt.size.width, plan.quilt.size.height, extra, cloths);
  if (best === undefined) return [];
  const width = formatLength(figures.number(`materials.backing.cloth.${best.cloth}.width`), system);
  const length = formatLength(best.panelLength, system, { rounding: 'up' });
  const amount = yardsToBuy(best.length, 0, figures.number('materials.yard_step'));
  return [
    {
      what: 'backing',
      amount,
      unit: 'yd',
      cost: times(figures.range(`materials.backing.cloth.${best.cloth}.price`), amount),
      note: `${best.panels === 1 ? 'one panel' : `${best.panels} panels`} of ${length}, running ${best.run}, from cloth ${width} wide. Wash it first.`,
    },
  ];
};

/** New batting: the smallest size sold that serves, priced by its area. */
export const newBatting: Shelf = (shopping) => {
  const { plan, figures } = shopping;
  if (plan.batting !== 'replace') return [];
  const size = plan.quilt.size;
  const need = battingNeed(size.width, size.height, figures.number('materials.batting.each_side'));
  const sizes = figures.below('materials.batting.size').map((name) => ({
    name,
    width: figures.number(`materials.batting.size.${name}.width`),
    length: figures.number(`materials.batting.size.${name}.length`),
  }));
  const sold = smallestBatting(need, sizes);
  const listed = `materials.batting.price.${plan.newBatting ?? 'other'}`;
  const price = figures.range(figures.has(listed) ? listed : 'materials.batting.price.other');
  const area = sold === undefined ? need.width * need.height : sold.width * sold.length;
  const sizeNote =
    sold === undefined
      ? `${sizeText(shopping, need)}: larger than any size sold, so join two or buy it off the roll`
      : `${sold.name} size, ${sizeText(shopping, { width: sold.width, height: sold.length })}; needed ${sizeText(shopping, need)}`;
  return [
    {
      what: `batting${plan.newBatting === undefined ? '' : `, ${plan.newBatting.replaceAll('_', ' ')}`}`,
      amount: 1,
      unit: 'pieces',
      cost: times(price, area / SQUARE_YARD),
      note: sizeNote,
    },
  ];
};

/** Filling for units that have gone flat. */
export const stuffing: Shelf = ({ plan, figures }) => {
  const amount = plan.actions
    .filter(({ action }) => action === 'restuff')
    .reduce((sum, { group }) => sum + group.count, 0);
  if (amount === 0) return [];
  const cost = times(figures.range('materials.stuffing.price'), amount);
  return [{ what: 'filling, one portion a unit', amount, unit: 'pieces', cost }];
};
