import type { Construction, LayoutSpec } from '../casebook/model.ts';
import { layEdgeToEdge } from './edge-to-edge.ts';
import type { Piecework } from './model.ts';
import { layOnPoint } from './on-point.ts';
import { laySashed } from './sashed.ts';
import { laySurveyGrid } from './survey-grid.ts';

type Size = { readonly width: number; readonly height: number };

/** Every layout there is, and how it becomes a graph. */
export const LAYOUTS: Readonly<Record<LayoutSpec['kind'], (layout: LayoutSpec, size: Size) => Piecework>> = {
  'edge to edge': layEdgeToEdge,
  sashed: laySashed,
  'on point': layOnPoint,
  'survey grid': laySurveyGrid,
};

/**
 * Laid-out quilts by what they were laid out from: the same quilt is read many times over when an answer is questioned,
 * and among thousands of cases the same layouts come up again. What follows from a layout alone is kept with it.
 */
const LAID = new Map<string, Piecework>();
/** Units in all of them together: a hundred quilts of fifty, or ten large ones. */
const MOST_UNITS = 5000;
let units = 0;

/**
 * The quilt as units and joins. `size` in inches; its borders lie outside the piecework, whose own width and height
 * are those of the units set together. No layout given: a survey grid of cells of about 10 in. A wholecloth quilt
 * keeps cells, lines and crossings as places for stitches but has no joins: it is one cloth.
 */
export const layOut = (
  layout: LayoutSpec | undefined,
  size: Size,
  construction?: Construction,
): Piecework => {
  const joined = construction !== 'wholecloth';
  const key = JSON.stringify([layout, size, joined]);
  const known = LAID.get(key);
  if (known !== undefined) return known;
  const laid = layout === undefined ? laySurveyGrid(undefined, size) : LAYOUTS[layout.kind](layout, size);
  const piecework = joined ? laid : { ...laid, joins: [] };
  keep(key, piecework);
  return piecework;
};

/** The ones kept longest make room. */
function keep(key: string, piecework: Piecework): void {
  LAID.set(key, piecework);
  units += piecework.units.length;
  for (const [oldest, { units: its }] of LAID) {
    if (units <= MOST_UNITS || oldest === key) return;
    LAID.delete(oldest);
    units -= its.length;
  }
}
