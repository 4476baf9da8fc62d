import type { LayoutSpec } from '../casebook/model.ts';
import { layGrid } from './grid.ts';
import type { Piecework } from './model.ts';

/** Blocks side by side. Where the finished size is not given the blocks fill the quilt. */
export const layEdgeToEdge = (
  layout: LayoutSpec,
  size: { readonly width: number; readonly height: number },
): Piecework =>
  layGrid({
    kind: 'edge to edge',
    rows: layout.rows,
    columns: layout.columns,
    unit: layout.finished ?? { width: size.width / layout.columns, height: size.height / layout.rows },
    strip: 0,
    piecesPerUnit: layout.pieces_per_unit,
  });
