import type { LayoutSpec } from '../casebook/model.ts';
import { layGrid } from './grid.ts';
import type { Piecework } from './model.ts';

/** Side of a cell in inches where no grid is given: about the reach of a hand laid flat, the trade's usual cell. */
const CELL = 10;

const cells = (extent: number): number => Math.max(1, Math.round(extent / CELL));

/**
 * A grid laid over a quilt that has no blocks. It always covers the whole quilt, so the cell follows from the
 * quilt's size and the number of rows and columns; a finished size given with it is the patch's and is not used here.
 */
export const laySurveyGrid = (
  layout: LayoutSpec | undefined,
  size: { readonly width: number; readonly height: number },
): Piecework => {
  const rows = layout?.rows ?? cells(size.height);
  const columns = layout?.columns ?? cells(size.width);
  return layGrid({
    kind: 'survey grid',
    rows,
    columns,
    unit: { width: size.width / columns, height: size.height / rows },
    strip: 0,
    piecesPerUnit: layout?.pieces_per_unit,
  });
};
