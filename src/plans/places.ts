import { isPlaced } from '../findings/survey-groups.ts';
import type { GroupAction } from './model.ts';

/**
 * Where some of a plan's actions are carried out; undefined where that cannot be told. On a map that does not show
 * fabrics, groups of one state share their places: these are told only where the same is done to all of them.
 */
export function placesOf(
  some: readonly GroupAction[],
  all: readonly GroupAction[],
): readonly string[] | undefined {
  const places: string[] = [];
  for (const { group } of some) {
    const alike = all.every((other) => other.group.state !== group.state || some.includes(other));
    if (group.where === undefined || !(isPlaced(group) || alike)) return undefined;
    places.push(...group.where);
  }
  return places;
}
