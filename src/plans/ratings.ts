import type { Quilt } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import { type Fact, highest, isSpan } from '../findings/fact.ts';
import { oncePer } from '../quantities/once.ts';
import type { PlanSpec } from './model.ts';

const NEW = 'plans.new_batting';
const OLD = 'plans.old_batting_rated_gap';

/** The greatest unfastened distance, in inches, that the plan's batting bears; unknown battings get the strictest rating. */
export function ratedGap(spec: PlanSpec, found: Quilt, figures: Figures): Fact {
  if (spec.batting === 'none') return undefined;
  if (spec.batting === 'replace' && spec.newBatting !== undefined)
    return figures.number(`${NEW}.${spec.newBatting}`);
  return found.batting?.rated_gap ?? figures.number(`${OLD}.${found.batting?.kind ?? 'unknown'}`);
}

/** The new batting with the smallest rating that bears the gap; the strongest one where none does or the gap is unknown. */
export function fittingBatting(gap: Fact, figures: Figures): string | undefined {
  const rated = newBattings(figures);
  const need =
    typeof gap === 'number' || (gap !== undefined && isSpan(gap)) ? highest(gap) : Number.POSITIVE_INFINITY;
  return (rated.find(({ rating }) => rating >= need) ?? rated.at(-1))?.name;
}

/** New battings to choose from, the one with the smallest rating first. */
const newBattings = oncePer((figures: Figures) =>
  figures
    .below(NEW)
    .map((name) => ({ name, rating: figures.number(`${NEW}.${name}`) }))
    .sort((a, b) => a.rating - b.rating || (a.name < b.name ? -1 : 1)),
);
