import type { Piecework } from '../piecework/model.ts';
import { gapOf, stitchingOf } from '../piecework/patterns.ts';
import type { PlanSpec } from './model.ts';

/** What two spacings are compared on: how much is pierced, and how far apart the fastenings are. */
interface Cost {
  readonly pierced: number;
  readonly gap: number;
}

/**
 * Lines one way and lines both ways are two things to the rules, not two spacings of one: at the same distance one
 * way always pierces less, and no quilt would ever be held both ways.
 */
const sameButForSpacing = (spec: PlanSpec): string =>
  [spec.treatment, spec.backing, spec.batting, spec.sewnBy, spec.directions === 'both'].join('|');

const beats = (a: Cost, b: Cost): boolean =>
  a.pierced <= b.pierced && a.gap <= b.gap && (a.pierced < b.pierced || a.gap < b.gap);

/** Leaves out a spacing that another of the same plan beats on one count and equals or beats on the other. */
export function notBeaten(piecework: Piecework, specs: readonly PlanSpec[]): PlanSpec[] {
  const costs = specs.map(({ joining, pattern, directions }): Cost => {
    if (joining === 'none') return { pierced: 0, gap: 0 };
    return {
      pierced: stitchingOf(piecework, joining, pattern, directions),
      gap: gapOf(piecework, joining, pattern, directions),
    };
  });
  const families = new Map<string, number[]>();
  for (const [index, spec] of specs.entries()) {
    const key = sameButForSpacing(spec);
    families.set(key, [...(families.get(key) ?? []), index]);
  }
  const kept: number[] = [];
  for (const members of families.values()) {
    for (const [rank, index] of members.entries()) {
      const mine = costs[index];
      const beaten = members.some((other, otherRank) => {
        const theirs = costs[other];
        if (other === index || mine === undefined || theirs === undefined) return false;
        const equal = mine.pierced === theirs.pierced && mine.gap === theirs.gap;
        return beats(theirs, mine) || (equal && otherRank < rank);
      });
      if (!beaten) kept.push(index);
    }
  }
  return kept.sort((a, b) => a - b).flatMap((index) => specs[index] ?? []);
}
