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

/** The smallest value that is not exceeded with at least the given chance. Chances add up to 1. */
export const percentile = (
  outcomes: readonly { readonly value: number; readonly chance: number }[],
  level: number,
): number => {
  let sum = 0;
  let last = 0;
  for (const { value, chance } of [...outcomes].sort((a, b) => a.value - b.value)) {
    sum += chance;
    last = value;
    if (sum >= level) break;
  }
  return last;
};
