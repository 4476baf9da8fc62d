/**
 * Shares out `total` whole pieces in proportion to the weights, by largest remainder; ties go to the earlier one.
 * Weights that are all nothing get nothing.
 */
export const apportion = (total: number, weights: readonly number[]): readonly number[] => {
  const sum = weights.reduce((all, weight) => all + weight, 0);
  if (sum <= 0) return weights.map(() => 0);
  const exact = weights.map((weight) => (total * weight) / sum);
  const whole = exact.map(Math.floor);
  const over = total - whole.reduce((all, part) => all + part, 0);
  const byRemainder = exact
    .map((value, index) => ({ index, rest: value - Math.floor(value) }))
    .sort((a, b) => b.rest - a.rest || a.index - b.index)
    .slice(0, over)
    .map(({ index }) => index);
  return whole.map((part, index) => part + (byRemainder.includes(index) ? 1 : 0));
};
