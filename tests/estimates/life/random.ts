/** A small seeded generator (mulberry32) so that simulations give the same answer on every machine. */
export interface Random {
  uniform(): number;
  normal(): number;
  lognormal(median: number, spread: number): number;
  exponential(): number;
  binomial(n: number, p: number): number;
  pick(weights: readonly number[]): number;
}

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return {
    uniform,
    normal,
    lognormal: (median, spread) => median * Math.exp(spread * normal()),
    exponential: () => -Math.log(1 - uniform()),
    binomial: (n, p) => Array.from({ length: n }, uniform).filter((u) => u < p).length,
    pick: (weights) => {
      let left = uniform() * weights.reduce((sum, weight) => sum + weight, 0);
      const found = weights.findIndex((weight) => {
        left -= weight;
        return left < 0;
      });
      return found < 0 ? weights.length - 1 : found;
    },
  };
}
