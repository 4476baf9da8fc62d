import { boundsOf, type Span } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

/** A part of a group: of how much of it something holds for certain, and of how much it may hold. Parts of 1. */
export interface Part {
  readonly group: UnitGroup;
  readonly sure: number;
  readonly perhaps: number;
}

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + of(item), 0);

/**
 * Share of the top that the parts make up together. The parts are of every group of the quilt once. How a state is shared
 * out over the fabrics may be open while the state as a whole is counted, and the other way about: whichever of the two
 * tells more holds.
 */
export function areaOf(quilt: SurveyedQuilt, parts: readonly Part[]): Span {
  const byState = within(parts, ({ group }) => group.state, exactly);
  const byFamily = within(
    parts,
    ({ group }) => group.family,
    (own) => {
      const family = quilt.families[own[0]?.group.family ?? ''];
      return family === undefined ? { lo: 0, hi: 1 } : boundsOf(family.share);
    },
  );
  const lo = Math.max(byState.lo, byFamily.lo);
  return { lo, hi: Math.max(lo, Math.min(byState.hi, byFamily.hi)) };
}

/** Bounds of parts whose groups make up a whole that is known within bounds itself. */
export function partOf(parts: readonly Part[], whole: Span): Span {
  const least = sum(parts, ({ group, sure }) => sure * group.least);
  const most = sum(parts, ({ group, perhaps, sure }) => (sure + perhaps) * group.most);
  const restMost = sum(parts, ({ group, sure }) => (1 - sure) * group.most);
  const restLeast = sum(parts, ({ group, sure, perhaps }) => (1 - sure - perhaps) * group.least);
  const lo = Math.max(least, whole.lo - restMost, 0);
  return { lo, hi: Math.max(lo, Math.min(most, whole.hi - restLeast)) };
}

/** As much as is likely: the groups of one state add up to what was counted. */
const exactly = (parts: readonly Part[]): Span => {
  const all = sum(parts, ({ group }) => group.share);
  return { lo: all, hi: all };
};

function within(
  parts: readonly Part[],
  key: (part: Part) => string | undefined,
  whole: (own: readonly Part[]) => Span,
): Span {
  const rows = new Map<string | undefined, Part[]>();
  for (const part of parts) rows.set(key(part), [...(rows.get(key(part)) ?? []), part]);
  const bounds = [...rows.values()].map((own) => partOf(own, whole(own)));
  return { lo: sum(bounds, ({ lo }) => lo), hi: sum(bounds, ({ hi }) => hi) };
}

/** The same of whole groups: those wanted. */
export const areaWhere = (
  quilt: SurveyedQuilt,
  groups: readonly UnitGroup[],
  wanted: (group: UnitGroup, index: number) => boolean,
): Span =>
  areaOf(
    quilt,
    groups.map((group, index) => ({ group, sure: wanted(group, index) ? 1 : 0, perhaps: 0 })),
  );
