import { formatLength } from '../../quantities/length.ts';
import { times } from '../../quantities/range.ts';
import { bindingCut, sleeveCut } from './edges.ts';
import type { Shelf, Shopping } from './shopping.ts';
import { yardsToBuy } from './yardage.ts';

const stripNote = ({ system }: Shopping, strips: number, width: number, length: number): string =>
  `${strips} ${strips === 1 ? 'strip' : 'strips'} ${formatLength(width, system)} wide, for ${formatLength(length, system, { rounding: 'up' })}`;

const toBuy = ({ figures }: Shopping, inches: number): number =>
  yardsToBuy(inches, 0, figures.number('materials.yard_step'));

/** A new binding all round, wherever the edge was opened or a backing is put on. */
export const bindingCloth: Shelf = (shopping) => {
  const { plan, figures, rebound } = shopping;
  if (!rebound) return [];
  const strip = figures.number('materials.binding.strip');
  const usable = figures.number('materials.strip_width');
  const allowance = figures.number('materials.binding.allowance');
  const cut = bindingCut(plan.quilt.size.width, plan.quilt.size.height, { allowance, usable, strip });
  const amount = toBuy(shopping, cut.cloth);
  const cost = times(figures.range('materials.cloth.price'), amount);
  return [
    { what: 'binding', amount, unit: 'yd', cost, note: stripNote(shopping, cut.strips, strip, cut.length) },
  ];
};

/** A sleeve where the quilt is to hang and something is sewn at all. */
export const sleeveCloth: Shelf = (shopping) => {
  const { plan, figures, hung } = shopping;
  if (!hung || plan.treatment === 'leave') return [];
  const strip = figures.number('materials.sleeve.strip');
  const usable = figures.number('materials.strip_width');
  const shorter = figures.number('materials.sleeve.shorter');
  const cut = sleeveCut(plan.quilt.size.width, { shorter, usable, strip });
  const amount = toBuy(shopping, cut.cloth);
  const cost = times(figures.range('materials.cloth.price'), amount);
  return [
    {
      what: 'hanging sleeve',
      amount,
      unit: 'yd',
      cost,
      note: stripNote(shopping, cut.strips, strip, cut.length),
    },
  ];
};
