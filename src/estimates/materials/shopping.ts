import type { Quilt } from '../../casebook/model.ts';
import type { Figures } from '../../figures/model.ts';
import { joiningGeometry } from '../../piecework/patterns.ts';
import type { Plan } from '../../plans/model.ts';
import { formatLength } from '../../quantities/length.ts';
import type { MeasureSystem } from '../../quantities/measure.ts';
import { isBoundAnew } from '../as-sewn.ts';
import type { Circumstances, MaterialItem } from '../model.ts';
import type { Cutting } from './cut-size.ts';

/** What every entry of the shopping list is worked out from. */
export interface Shopping {
  readonly plan: Plan;
  readonly found: Quilt | undefined;
  readonly hung: boolean;
  readonly system: MeasureSystem;
  readonly figures: Figures;
  readonly cutting: Cutting;
  /** Ties or tacks. */
  readonly points: number;
  /** Inches of line. */
  readonly lines: number;
  /** Whether the edge is bound anew. */
  readonly rebound: boolean;
}

/** One kind of entry: it answers for itself what of it a plan needs. */
export type Shelf = (shopping: Shopping) => readonly MaterialItem[];

export const goShopping = (plan: Plan, figures: Figures, circumstances: Circumstances): Shopping => {
  const { points, length } = joiningGeometry(plan.quilt.piecework, plan);
  return {
    plan,
    found: circumstances.found,
    hung: circumstances.hung ?? false,
    system: circumstances.system ?? 'inches',
    figures,
    cutting: {
      allowance: figures.number('materials.seam_allowance'),
      step: figures.number('materials.cutting_step'),
    },
    points: points.length,
    lines: length,
    rebound: isBoundAnew(plan),
  };
};

/** `1 piece`, `12 pieces`. */
export const piecesText = (count: number): string => `${count} ${count === 1 ? 'piece' : 'pieces'}`;

/** A size as a cutter reads it, rounded up. */
export const sizeText = (
  { system }: Shopping,
  size: { readonly width: number; readonly height: number },
): string => {
  const [width, height] = [size.width, size.height].map((side) =>
    formatLength(side, system, { rounding: 'up' }),
  );
  return `${width} x ${height}`;
};
