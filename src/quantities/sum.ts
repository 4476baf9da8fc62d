import { exactly, plus, type Range } from './range.ts';

/** Standard normal distance to the 90th percentile. */
const Z90 = 1.2815515655446004;

interface Cumulants {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
}

/**
 * Mean, variance and third central moment of a forecast given as 10th, 50th and 90th percentile: the 30/40/30 rule
 * (Swanson; Hurst, Brown and Swanson, AAPG Bulletin 84, 2000; from memory), right to 2 % for a normal distribution.
 */
const cumulants = ({ low, likely, high }: Range): Cumulants => {
  const mean = 0.3 * low + 0.4 * likely + 0.3 * high;
  const moment = (power: number): number =>
    0.3 * (low - mean) ** power + 0.4 * (likely - mean) ** power + 0.3 * (high - mean) ** power;
  return { mean, variance: moment(2), third: moment(3) };
};

const within = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/**
 * The sum of independent forecasts, each `low`, `likely`, `high` read as its 10th, 50th and 90th percentile, and given
 * back in the same way. Cumulants of independent terms add; the percentiles follow by Cornish and Fisher's expansion
 * to the third. It is narrower than adding all lows and all highs (not everything goes wrong at once), wider than
 * certainty, and its middle lies above the sum of the middles where the terms lean to the high side, which is how
 * adding up likely hours under-prices a job. One forecast alone comes back as it is.
 */
export const sumIndependent = (ranges: readonly Range[]): Range => {
  const certain = ranges.filter(({ low, high }) => low === high).reduce((sum, { likely }) => sum + likely, 0);
  const uncertain = ranges.filter(({ low, high }) => low !== high);
  const [only] = uncertain;
  if (only === undefined) return exactly(certain);
  return plus(uncertain.length === 1 ? only : sumOfSeveral(uncertain), exactly(certain));
};

const sumOfSeveral = (ranges: readonly Range[]): Range => {
  const total = { mean: 0, variance: 0, third: 0, low: 0, high: 0 };
  for (const range of ranges) {
    const term = cumulants(range);
    total.mean += term.mean;
    total.variance += term.variance;
    total.third += term.third;
    total.low += range.low;
    total.high += range.high;
  }
  const deviation = Math.sqrt(total.variance);
  const cube = deviation ** 3;
  // Forecasts so nearly certain that the cube underflows have no lean to speak of.
  const skewness = cube > 0 ? total.third / cube : 0;
  const at = (z: number): number =>
    within(total.mean + deviation * (z + ((z * z - 1) * skewness) / 6), total.low, total.high);
  return { low: at(-Z90), likely: at(0), high: at(Z90) };
};

/**
 * A forecast times a factor of median 1 and the given log-standard deviation, independent of it: for what all terms of
 * a sum share, such as one worker's pace. Spreads add in quadrature on the log scale, each side by itself.
 * `range` must not be negative.
 */
export const timesShared = (range: Range, spread: number): Range => {
  if (range.likely <= 0 || spread === 0) return range;
  const widened = (ratio: number): number => Math.exp(Math.hypot(Math.log(ratio), Z90 * spread));
  return {
    low: range.low <= 0 ? 0 : range.likely / widened(range.likely / range.low),
    likely: range.likely,
    high: range.likely * widened(range.high / range.likely),
  };
};
