import { isDone } from '../../findings/old-cloth.ts';
import { formatLength } from '../../quantities/length.ts';
import { type Range, times } from '../../quantities/range.ts';
import { yards, yardsToBuy } from './cut-size.ts';
import { type Shelf, type Shopping, sizeText } from './shopping.ts';

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

/** Filling for units that have gone flat, and for new ones of a quilt of stuffed squares. */
export const stuffing: Shelf = ({ plan, figures }) => {
  const amount = plan.actions
    .filter(
      (each) =>
        isDone(each, 'restuff') ||
        (each.action === 'replace' && plan.quilt.construction === 'puffed_squares'),
    )
    .reduce((sum, { group }) => sum + group.count, 0);
  if (amount === 0) return [];
  const cost = times(figures.range('materials.stuffing.price'), amount);
  return [{ what: 'filling, one portion a unit', amount, unit: 'pieces', cost }];
};

interface BackingCloth {
  readonly name: string;
  /** Usable width in inches. */
  readonly width: number;
  /** By the yard. */
  readonly price: Range;
}

interface BackingPlan {
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

interface BattingSize {
  readonly name: string;
  readonly width: number;
  readonly length: number;
}

/** What must be covered: the top and `extra` in on each side. */
const battingNeed = (
  width: number,
  height: number,
  extra: number,
): { readonly width: number; readonly height: number } => ({
  width: width + 2 * extra,
  height: height + 2 * extra,
});

/** The smallest size as sold that covers `width` × `height`, turned if that helps; undefined where none does. */
export const smallestBatting = (
  need: { readonly width: number; readonly height: number },
  sizes: readonly BattingSize[],
): BattingSize | undefined => {
  const [short, long] = [Math.min(need.width, need.height), Math.max(need.width, need.height)];
  return sizes
    .filter((size) => Math.min(size.width, size.length) >= short && Math.max(size.width, size.length) >= long)
    .sort((a, b) => a.width * a.length - b.width * b.length || (a.name < b.name ? -1 : 1))[0];
};

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

/** Cutting a binding, lengths in inches. */
interface BindingCut {
  /** Once round, and the allowance for joins and corners. */
  readonly length: number;
  /** Strips before rounding up, as handbooks print it. */
  readonly exactStrips: number;
  readonly strips: number;
  /** Off the bolt. */
  readonly cloth: number;
}

/** `allowance` for joins and corners (published: 0 to 24 in), `usable` across the bolt, `strip` the cut width. */
export const bindingCut = (
  width: number,
  height: number,
  {
    allowance,
    usable,
    strip,
  }: { readonly allowance: number; readonly usable: number; readonly strip: number },
): BindingCut => {
  const length = 2 * (width + height) + allowance;
  const exactStrips = length / usable;
  const strips = Math.ceil(exactStrips - 1e-9);
  return { length, exactStrips, strips, cloth: strips * strip };
};

/** A hanging sleeve for a quilt `width` in wide: its length, and strips of cloth `usable` in across to make it. */
export const sleeveCut = (
  width: number,
  { shorter, usable, strip }: { readonly shorter: number; readonly usable: number; readonly strip: number },
): { readonly length: number; readonly strips: number; readonly cloth: number } => {
  const length = Math.max(0, width - shorter);
  const strips = Math.ceil(length / usable - 1e-9);
  return { length, strips, cloth: strips * strip };
};
