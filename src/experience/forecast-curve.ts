import { normalCdf, normalQuantile } from '../statistics/normal.ts';

/** A forecast of years as its 10th, 50th and 90th percentiles say it. */
export interface ForecastRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly horizon: number;
}

/** P(a repair is due within `years`), and how wide each side is on the log scale. */
export interface ForecastCurve {
  dueBy(years: number): number;
  readonly middle: number;
}

const Z = normalQuantile(0.9);
/** A low end of nothing would make a spread without end. */
const WIDEST = 2.5;
const NARROWEST = 0.05;

/**
 * The curve behind a forecast: normal in log years on each side of the middle, through the three percentiles. Where the
 * high end lies beyond the horizon nobody knows it, and the low side's spread stands for both. Undefined where even the
 * middle is beyond the horizon, or no forecast stands: such a quilt tells nothing yet.
 */
export const forecastCurve = ({ low, middle, high, horizon }: ForecastRange): ForecastCurve | undefined => {
  if (!(middle > 0) || middle >= horizon) return undefined;
  const held = (spread: number): number => Math.min(WIDEST, Math.max(NARROWEST, spread));
  const below = held(Math.log(middle / Math.max(low, 1e-6)) / Z);
  const above = high >= horizon ? below : held(Math.log(high / middle) / Z);
  return {
    middle,
    dueBy: (years) => {
      if (!(years > 0)) return 0;
      const log = Math.log(years / middle);
      return normalCdf(log / (log < 0 ? below : above));
    },
  };
};

/**
 * Log-likelihood of a repair coming due in an interval (or not by its start, where it has no end) when the forecast's
 * years are stretched by e^`stretch`.
 */
export const outcomeLogLikelihood =
  (curve: ForecastCurve, from: number, to: number | undefined) =>
  (stretch: number): number => {
    const by = (years: number): number => curve.dueBy(years * Math.exp(-stretch));
    const chance = to === undefined ? 1 - by(from) : by(to) - by(from);
    return Math.log(Math.max(chance, 1e-12));
  };
