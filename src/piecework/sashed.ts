import type { LayoutSpec } from '../casebook/model.ts';
import { layGrid } from './grid.ts';
import type { Piecework } from './model.ts';

const gaps = (n: number): number => Math.max(1, n - 1);

/**
 * Blocks with strips between them. A strip belongs to neither neighbour and counts as one seam, on its middle.
 * Block size and strip width follow from each other and the quilt's size: the strip not given is what the blocks
 * leave over (never less than nothing); the block not given is what the strips leave over. Neither given: no strips.
 */
export const laySashed = (
  layout: LayoutSpec,
  size: { readonly width: number; readonly height: number },
): Piecework => {
  const { rows, columns, finished } = layout;
  const leftOver =
    finished === undefined
      ? 0
      : Math.min(
          columns > 1 ? (size.width - columns * finished.width) / gaps(columns) : Number.POSITIVE_INFINITY,
          rows > 1 ? (size.height - rows * finished.height) / gaps(rows) : Number.POSITIVE_INFINITY,
        );
  const strip = layout.sashing ?? (Number.isFinite(leftOver) ? Math.max(0, leftOver) : 0);
  const unit = finished ?? {
    width: (size.width - (columns - 1) * strip) / columns,
    height: (size.height - (rows - 1) * strip) / rows,
  };
  return layGrid({ kind: 'sashed', rows, columns, unit, strip, piecesPerUnit: layout.pieces_per_unit });
};
