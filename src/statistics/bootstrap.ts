import type { Interval } from './intervals.ts';
import { seeded } from './seeded.ts';

/** Draws with replacement; enough that the limits move by less than their last shown digit. */
const DRAWS = 1000;
const SEED = 20261125;

/**
 * Percentile bootstrap: the statistic is worked out again on `DRAWS` samples drawn with replacement from the things
 * judged, with a fixed seed, and the middle `level` of the results is the interval. Draws on which the statistic is
 * undefined are left out; undefined where fewer than half remain. With few things the interval is too narrow.
 */
export const bootstrapInterval = <T>(
  things: readonly T[],
  statistic: (sample: readonly T[]) => number | undefined,
  level: number,
): Interval | undefined => {
  const random = seeded(SEED);
  const found: number[] = [];
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const sample = things.map(() => things[Math.floor(random.uniform() * things.length)] as T);
    const value = statistic(sample);
    if (value !== undefined) found.push(value);
  }
  if (found.length < DRAWS / 2) return undefined;
  found.sort((a, b) => a - b);
  const at = (share: number): number => found[Math.round(share * (found.length - 1))] ?? 0;
  return { low: at((1 - level) / 2), high: at((1 + level) / 2) };
};
