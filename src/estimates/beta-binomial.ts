import { fits } from '../quantities/rounding.ts';

/**
 * Chances of 0 … `n` successes in `n` trials whose common chance is Beta(a, b): `n` whole, a and b > 0. By recursion
 * from the first, so no gamma function is needed.
 */
export const betaBinomial = (n: number, a: number, b: number): readonly number[] => {
  let chance = 1;
  for (let i = 0; i < n; i += 1) chance *= (b + i) / (a + b + i);
  const chances = [chance];
  for (let k = 0; k < n; k += 1) {
    chance *= ((n - k) * (a + k)) / ((k + 1) * (b + n - k - 1));
    chances.push(chance);
  }
  return chances;
};

/**
 * The smallest value that count × factor does not exceed with at least the chance `level`; count and factor are
 * independent. `counts` holds the chances of 0, 1, 2 …; factors are above 0; all chances add up to 1.
 */
export const productPercentile = (
  counts: readonly number[],
  factors: readonly { readonly value: number; readonly chance: number }[],
  level: number,
): number => {
  let sum = 0;
  const upTo = counts.map((chance) => {
    sum += chance;
    return sum;
  });
  const last = counts.length - 1;
  // A hair above, so that rounding in the sums cannot push a percentile to the next value.
  const reaches = (x: number): boolean =>
    factors.reduce(
      (total, { value, chance }) => total + chance * (upTo[Math.min(last, fits(x, value))] ?? 0),
      0,
    ) >=
    level - 1e-12;
  const candidates = factors.map(({ value }) => {
    let [low, high] = [0, last];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (reaches(middle * value)) high = middle;
      else low = middle + 1;
    }
    return reaches(low * value) ? low * value : Number.POSITIVE_INFINITY;
  });
  return Math.min(...candidates);
};
