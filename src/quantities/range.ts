/** A figure of judgement or a forecast: never a single number. `low` ≤ `likely` ≤ `high`, all in one unit. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const exactly = (value: number): Range => ({ low: value, likely: value, high: value });

export const plus = (a: Range, b: Range): Range => ({
  low: a.low + b.low,
  likely: a.likely + b.likely,
  high: a.high + b.high,
});

export const times = (range: Range, factor: number): Range => ({
  low: range.low * factor,
  likely: range.likely * factor,
  high: range.high * factor,
});

/** Weights of the 10th, 50th and 90th percentile that give the mean of a skewed quantity: Swanson's rule, from memory. */
export const SWANSON: Range = { low: 0.3, likely: 0.4, high: 0.3 };

/**
 * A judgement told as its 10th, 50th and 90th percentiles, with its mean in the place of the middle: what sums are made
 * of. The middle of a quantity that leans to the high side lies below its average, and middles do not add up.
 */
export const averaged = ({ low, likely, high }: Range): Range => ({
  low,
  likely: SWANSON.low * low + SWANSON.likely * likely + SWANSON.high * high,
  high,
});

/** Standard normal distance to the 90th percentile. */
const Z90 = 1.2815515655446004;
/** Share of the skewness by which Cornish and Fisher's expansion moves the 10th and 90th percentiles. */
const LEAN = (Z90 * Z90 - 1) / 6;

interface Cumulants {
  readonly variance: number;
  readonly third: number;
}

/** Second and third cumulant of a forecast from its outer percentiles and its mean, by Cornish and Fisher inverted. */
const cumulants = ({ low, likely, high }: Range): Cumulants => {
  const deviation = (high - low) / (2 * Z90);
  return { variance: deviation ** 2, third: (deviation ** 2 * (high + low - 2 * likely)) / (2 * LEAN) };
};

/**
 * The sum of independent forecasts. `low` and `high` are read and given back as 10th and 90th percentiles, `likely`
 * as the mean, so the likely column of a bill adds up. Cumulants of independent terms add; percentiles are found from
 * them by Cornish and Fisher's expansion to the third. So the sum is narrower than all lows and all highs (not
 * everything goes wrong at once), wider than certainty, and one forecast alone comes back as it is.
 */
export const sumIndependent = (ranges: readonly Range[]): Range => {
  const whole = ranges.reduce(plus, exactly(0));
  const uncertain = ranges.filter(({ low, high }) => high > low);
  const [only] = uncertain;
  if (only === undefined) return whole;
  if (uncertain.length === 1) {
    const certain = whole.likely - only.likely;
    return { low: only.low + certain, likely: whole.likely, high: only.high + certain };
  }
  let variance = 0;
  let third = 0;
  for (const range of uncertain) {
    const term = cumulants(range);
    variance += term.variance;
    third += term.third;
  }
  if (variance === 0) return whole;
  const deviation = Math.sqrt(variance);
  const lean = (LEAN * third) / variance;
  return {
    low: Math.max(whole.low, Math.min(whole.likely, whole.likely + lean - Z90 * deviation)),
    likely: whole.likely,
    high: Math.min(whole.high, Math.max(whole.likely, whole.likely + lean + Z90 * deviation)),
  };
};

/**
 * The forecast for `count` of something, each as forecast. `alike` is the correlation between one and the next: at 1
 * all go well or badly together and the range is `count` times as wide; at 0 they even out. Below one of it, the whole
 * range is scaled.
 */
export const repeated = (each: Range, count: number, alike: number): Range => {
  const { low, likely, high } = times(each, count);
  const evened = count > 1 ? Math.sqrt(alike + (1 - alike) / count) : 1;
  return { low: likely - (likely - low) * evened, likely, high: likely + (high - likely) * evened };
};

/**
 * A forecast times a factor about 1 of the given log-standard deviation, independent of it: for what all terms of
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
