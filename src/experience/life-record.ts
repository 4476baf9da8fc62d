import { type Interval, wilson } from '../statistics/intervals.ts';
import { forecastCurve } from './forecast-curve.ts';
import type { LifeEvidence } from './life-evidence.ts';

export type Place = 'inside' | 'sooner' | 'later' | 'open';

/** Forecasts beside what became of them. */
export interface LifeRecord {
  readonly followed: number;
  readonly due: number;
  /** Repairs the forecasts expected over the years the quilts were in view: Σ −ln(1 − F). */
  readonly expected: number;
  readonly places: Readonly<Record<Place, number>>;
  /** Share inside the 80 % range among those that are not open; undefined where all are open. */
  readonly inside: { readonly share: number; readonly of: number; readonly interval: Interval } | undefined;
}

/** Where an outcome lies beside its forecast's 80 % range: open where follow-ups do not tell yet. */
export const placeOf = ({ forecast, outcome }: Pick<LifeEvidence, 'forecast' | 'outcome'>): Place => {
  const { low, high, horizon } = forecast;
  const { wholeAt, dueAt } = outcome;
  if (dueAt !== undefined && dueAt < low) return 'sooner';
  if (high < horizon && wholeAt > high) return 'later';
  if (dueAt !== undefined && wholeAt >= low && (dueAt <= high || high >= horizon)) return 'inside';
  // Found due at the first look past the low end: it may have been due just before.
  if (dueAt !== undefined && dueAt >= low && dueAt <= high) return 'inside';
  return 'open';
};

export const lifeRecord = (evidence: readonly LifeEvidence[]): LifeRecord => {
  const places: Record<Place, number> = { inside: 0, sooner: 0, later: 0, open: 0 };
  let expected = 0;
  for (const one of evidence) {
    places[placeOf(one)] += 1;
    const curve = forecastCurve(one.forecast);
    if (curve !== undefined)
      expected += -Math.log1p(-Math.min(1 - 1e-9, curve.dueBy(one.outcome.dueAt ?? one.outcome.wholeAt)));
  }
  const told = places.inside + places.sooner + places.later;
  return {
    followed: evidence.length,
    due: evidence.filter(({ outcome }) => outcome.dueAt !== undefined).length,
    expected,
    places,
    inside:
      told === 0
        ? undefined
        : { share: places.inside / told, of: told, interval: wilson(places.inside, told, 0.95) },
  };
};
