import type { UnitGroup } from '../../src/findings/surveyed.ts';

/** A group of which everything is known: its share and, on a map, its places. */
export const exactly = (
  share: number,
  where?: readonly string[],
): Pick<UnitGroup, 'share' | 'least' | 'most' | 'where' | 'among'> => ({
  share,
  least: share,
  most: share,
  where,
  among: where,
});
