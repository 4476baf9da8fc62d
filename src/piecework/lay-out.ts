import type { Construction, LayoutSpec } from '../casebook/model.ts';
import { memo } from '../quantities/memo.ts';
import { layGrid } from './grid.ts';
import type { Piecework } from './model.ts';
import { layOnPoint } from './on-point.ts';

type Size = { readonly width: number; readonly height: number };

/** Blocks side by side. Where the finished size is not given the blocks fill the quilt. */
const layEdgeToEdge = (
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

const gaps = (n: number): number => Math.max(1, n - 1);

/**
 * Blocks with strips between them. A strip belongs to neither neighbour and counts as one seam, on its middle.
 * Block size and strip width follow from each other and the quilt's size: the strip not given is what the blocks
 * leave over (never less than nothing); the block not given is what the strips leave over. Neither given: no strips.
 */
const laySashed = (
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

/** Side of a cell in inches where no grid is given: about the reach of a hand laid flat, the trade's usual cell. */
const CELL = 10;

const cells = (extent: number): number => Math.max(1, Math.round(extent / CELL));

/**
 * A grid laid over a quilt that has no blocks. It always covers the whole quilt, so the cell follows from the
 * quilt's size and the number of rows and columns; a finished size given with it is the patch's and is not used here.
 */
const laySurveyGrid = (
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

/** Every layout there is, and how it becomes a graph. */
export const LAYOUTS: Readonly<Record<LayoutSpec['kind'], (layout: LayoutSpec, size: Size) => Piecework>> = {
  'edge to edge': layEdgeToEdge,
  sashed: laySashed,
  'on point': layOnPoint,
  'survey grid': laySurveyGrid,
};

/**
 * The quilt as units and joins. `size` in inches; its borders lie outside the piecework, whose own width and height
 * are those of the units set together. No layout given: a survey grid of cells of about 10 in. A wholecloth quilt
 * keeps cells, lines and crossings as places for stitches but has no joins: it is one cloth.
 */
export const layOut = (layout: LayoutSpec | undefined, size: Size, construction?: Construction): Piecework =>
  laidOut({ layout, size, joined: construction !== 'wholecloth' });

interface ToLay {
  readonly layout: LayoutSpec | undefined;
  readonly size: Size;
  readonly joined: boolean;
}

// Without it the questions of three cases take 30 % more processor time.
const laidOut = memo(8, ({ layout, size, joined }: ToLay): Piecework => {
  const laid = layout === undefined ? laySurveyGrid(undefined, size) : LAYOUTS[layout.kind](layout, size);
  return joined ? laid : { ...laid, joins: [] };
});
