import { type Range, times } from '../../quantities/range.ts';
import { fits } from '../../quantities/rounding.ts';
import type { MaterialItem } from '../model.ts';
import { cornerCut, settingCut, sparesFor, squareCut, stripsFor, yards, yardsToBuy } from './cut-size.ts';
import { type FamilyPieces, type Pieces, piecesByFamily, type Shape } from './pieces.ts';
import { piecesText, type Shelf, type Shopping, sizeText } from './shopping.ts';

type Size = { readonly width: number; readonly height: number };
type Cut = (finished: Size, shopping: Shopping) => Size;

const squareOf = (side: number): Size => ({ width: side, height: side });

/** How each shape is cut: the cut size, how many it gives, and what the cutter does with it. */
const CUTS: Readonly<Record<Shape, { readonly cut: Cut; readonly gives: number; readonly after: string }>> = {
  rectangle: {
    cut: ({ width, height }, { cutting }) => ({
      width: squareCut(width, cutting),
      height: squareCut(height, cutting),
    }),
    gives: 1,
    after: '',
  },
  'side triangle': {
    cut: ({ width }, { cutting }) => squareOf(settingCut(width, cutting)),
    gives: 4,
    after: ', cut across twice',
  },
  'corner triangle': {
    cut: ({ width }, { cutting }) => squareOf(cornerCut(width, cutting)),
    gives: 2,
    after: ', cut across once',
  },
};

/** Cloth for pieces put in or laid over, one entry a fabric family. */
export const matchingCloth: Shelf = (shopping) =>
  piecesByFamily(shopping.plan, ['replace', 'patch_over']).map((family) => {
    const what = `cloth to match ${nameOf(shopping, family)}`;
    const spares = sparesFor(total(family.pieces), shopping.figures.number('materials.spares'));
    const lists = family.pieces.map((pieces, index) => cutList(shopping, pieces, index === 0 ? spares : 0));
    const measured = lists.filter((list) => list !== undefined);
    if (measured.length < lists.length) return byArea(shopping, what, family);
    const inches = measured.reduce((sum, { length }) => sum + length, 0);
    const amount = toBuy(shopping, inches);
    return {
      what,
      amount,
      unit: 'yd',
      cost: times(price(shopping), amount),
      note: `${measured.map(({ text }) => text).join('; ')}. Measure each gap first and cut to it.`,
    };
  });

const total = (pieces: readonly Pieces[]): number => pieces.reduce((sum, { count }) => sum + count, 0);

const price = ({ figures }: Shopping): Range => figures.range('materials.cloth.price');

const toBuy = ({ figures }: Shopping, inches: number): number =>
  yardsToBuy(inches, figures.number('materials.waste'), figures.number('materials.yard_step'));

const nameOf = ({ plan }: Shopping, { family }: FamilyPieces): string => {
  if (family === undefined) return 'the old cloth (which fabric is not on record)';
  const name = plan.quilt.families[family]?.name;
  return name === undefined || name === family ? family : `${family}, ${name}`;
};

const isStuffed = ({ plan }: Shopping): boolean => plan.quilt.construction === 'puffed_squares';

/** What the filling takes up of a top that is sewn to a smaller base. */
const fullness = (shopping: Shopping): number =>
  isStuffed(shopping) ? shopping.figures.number('materials.stuffing.fullness') : 0;

/** A new stuffed square has a base, cut to the gap, that the filling lies on. */
export const basesOfStuffed: Shelf = (shopping) => {
  const pieces = isStuffed(shopping)
    ? piecesByFamily(shopping.plan, ['replace']).flatMap((family) => family.pieces)
    : [];
  const count = total(pieces);
  if (count === 0) return [];
  const finished = pieces[0]?.finished;
  const size = finished && CUTS.rectangle.cut(finished, shopping);
  const strips = size && stripsFor(count, size, shopping.figures.number('materials.strip_width'));
  const amount = toBuy(shopping, strips?.length ?? shopping.figures.number('materials.strip_width'));
  return [
    {
      what: 'plain cloth for the bases of stuffed squares',
      amount,
      unit: 'yd',
      cost: times(price(shopping), amount),
      note:
        size === undefined
          ? `${piecesText(count)}: their size is not on record. Measure before buying.`
          : `${count} cut ${sizeText(shopping, size)}. Measure each gap first and cut to it.`,
    },
  ];
};

/** Undefined where the size is not on record, or no bolt is wide enough. */
const cutList = (
  shopping: Shopping,
  { shape, count, finished }: Pieces,
  spares: number,
): { readonly length: number; readonly text: string } | undefined => {
  if (finished === undefined) return undefined;
  const { cut, gives, after } = CUTS[shape];
  const full = fullness(shopping);
  const size = cut({ width: finished.width + full, height: finished.height + full }, shopping);
  const needed = Math.ceil((count + spares) / gives);
  const strips = stripsFor(needed, size, shopping.figures.number('materials.strip_width'));
  if (strips === undefined) return undefined;
  const spareText = spares > 0 ? ` (${spares} spare)` : '';
  const cutText = `${needed} cut ${sizeText(shopping, size)}${after}`;
  const text = `${count + spares} ${count + spares === 1 ? shape : `${shape}s`}${spareText}, ${cutText}, from ${strips.strips} ${strips.strips === 1 ? 'strip' : 'strips'} of ${strips.piecesEach}`;
  return { length: strips.length, text };
};

/**
 * Pieces whose size nobody measured, or wider than a bolt: the yardage is what the area alone takes, but never too short
 * to cut the pieces from, and the cost allows for the cloth that seams and cutting add.
 */
const byArea = (shopping: Shopping, what: string, { pieces, area }: FamilyPieces): MaterialItem => {
  const usable = shopping.figures.number('materials.strip_width');
  const bare = Math.max(area / usable, deepest(shopping, pieces, area));
  const amount = toBuy(shopping, bare);
  const unknown = pieces.some(({ finished }) => finished === undefined);
  const why = unknown
    ? 'their sizes are not on record'
    : 'they are wider than a bolt, so they must be pieced';
  const factor = shopping.figures.range('materials.unknown_pieces');
  const each = price(shopping);
  // Never less than what is bought.
  const part = (side: keyof Range): number => Math.max(amount, yards(bare) * factor[side]) * each[side];
  return {
    what,
    amount,
    unit: 'yd',
    cost: { low: part('low'), likely: part('likely'), high: part('high') },
    note: `At least this much by area for ${piecesText(total(pieces))}: ${why}. Measure before buying.`,
  };
};

/** Inches off the bolt for one piece of average size, as a square: less cannot be cut from. */
const deepest = ({ plan, cutting, figures }: Shopping, pieces: readonly Pieces[], area: number): number => {
  const each = plan.quilt.counting === 'units' ? (plan.quilt.piecework.piecesPerUnit ?? 1) : 1;
  const side = squareCut(Math.sqrt(area / Math.max(1, total(pieces) * each)), cutting);
  return Math.min(side, figures.number('materials.strip_width'));
};

/** Net or muslin over or under whole units, with an overlap all round. */
const laid =
  (action: 'overlay' | 'support', what: string, width: string, cost: string): Shelf =>
  (shopping) => {
    const { figures, plan } = shopping;
    const families = piecesByFamily(plan, [action]);
    if (families.length === 0) return [];
    const overlap = 2 * figures.number('materials.overlap');
    const usable = figures.number(width);
    const lists = families.flatMap(({ pieces }) => pieces);
    const count = total(lists);
    const finished = lists[0]?.finished;
    const piece = finished && { width: finished.width + overlap, height: finished.height + overlap };
    const strips = piece && stripsFor(count, piece, usable);
    const area = families.reduce((sum, family) => sum + family.area, 0);
    const amount = toBuy(shopping, strips?.length ?? area / usable);
    const note =
      piece && fits(usable, piece.width) > 0
        ? `${piecesText(count)} of ${sizeText(shopping, piece)}`
        : `At least this much by area for ${piecesText(count)}, whose sizes are not on record.`;
    return [{ what, amount, unit: 'yd', cost: times(figures.range(cost), amount), note }];
  };

export const overlayNet = laid(
  'overlay',
  'net or crepeline for overlays',
  'materials.net.width',
  'materials.net.price',
);

export const supportCloth = laid(
  'support',
  'thin muslin for supports',
  'materials.strip_width',
  'materials.cloth.price',
);
