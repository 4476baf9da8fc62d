import type { Quilt } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Fact } from '../findings/fact.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import { gapOf } from '../piecework/patterns.ts';
import type { PlanSpec } from './model.ts';

/**
 * The widest unfastened distance in inches once the plan is carried out. New joining sets it; otherwise the gap
 * as found, where few enough of the old fastenings are missing to be restored through their old holes, and twice
 * that gap where more are gone. Unknown where the old joining is.
 */
export function gapAfter(spec: PlanSpec, quilt: SurveyedQuilt, found: Quilt, figures: Figures): Fact {
  if (spec.joining !== 'none') return gapOf(quilt.piecework, spec.joining, spec.pattern, spec.directions);
  const old = found.joining;
  if (old?.kind === undefined) return undefined;
  // Nothing but the edge holds the layers together.
  if (old.kind === 'none') return Math.min(quilt.size.width, quilt.size.height);
  if (old.gap === undefined) return undefined;
  const intact = figures.number('findings.intact_missing');
  if (old.missing === undefined) return { lo: old.gap, hi: 2 * old.gap };
  return old.missing <= intact ? old.gap : 2 * old.gap;
}
