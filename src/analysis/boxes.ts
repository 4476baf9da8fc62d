import { judge } from '../rulebook/comparisons.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Condition, Test } from '../rulebook/model.ts';
import { type Box, type CellSet, cellsWhere, type Space } from './cells.ts';
import { isSpecified, PLAN_KINDS, type PlanKind } from './plan-kinds.ts';
import { narrowed } from './relations.ts';

/** What is asked of a condition: that it comes out so. `not true` is false or undecided. */
export type Wanted = 'true' | 'false' | 'not true' | 'not false';

/** More boxes than this for one condition is no rule anybody could read; the caller says that it gave up. */
export const MOST_BOXES = 20_000;

const ASKS: Readonly<Record<Wanted, (truth: Truth) => boolean>> = {
  true: (truth) => truth === true,
  false: (truth) => truth === false,
  'not true': (truth) => truth !== true,
  'not false': (truth) => truth !== false,
};
const TURNED: Readonly<Record<Wanted, Wanted>> = {
  true: 'false',
  false: 'true',
  'not true': 'not false',
  'not false': 'not true',
};

/** All ways in which a condition comes out as asked, as boxes that may overlap; none where it cannot. Strong Kleene logic. */
export function boxesOf(condition: Condition, wanted: Wanted, space: Space): Box[] {
  if ('test' in condition) return leaf(condition.test, wanted, space);
  if ('not' in condition) return boxesOf(condition.not, TURNED[wanted], space);
  const parts = 'all' in condition ? condition.all : condition.any;
  const together = 'all' in condition === (wanted === 'true' || wanted === 'not false');
  if (!together) return parts.flatMap((part) => boxesOf(part, wanted, space));
  return parts.reduce<Box[]>(
    (boxes, part) => meetAll(boxes, boxesOf(part, wanted, space), space),
    [new Map()],
  );
}

function leaf(test: Test, wanted: Wanted, { axes }: Space): Box[] {
  const axis = axes.get(test.key);
  if (axis === undefined) return [new Map()];
  const cells = cellsWhere(axis, test, ASKS[wanted]);
  return cells === 0n ? [] : [new Map([[test.key, cells]])];
}

/** Every way of being in a box of each list. */
export function meetAll(left: readonly Box[], right: readonly Box[], space: Space): Box[] {
  const met: Box[] = [];
  for (const a of left) {
    for (const b of right) {
      const both = meet(a, b, space);
      if (both !== undefined && met.push(both) > MOST_BOXES) return met;
    }
  }
  return met;
}

/** What two boxes have in common, with what follows from the relations; undefined where that is nothing. */
export function meet(a: Box, b: Box, space: Space): Box | undefined {
  const both = new Map(a);
  for (const [key, cells] of b) {
    const met = (both.get(key) ?? space.axes.get(key)?.all ?? cells) & cells;
    if (met === 0n) return undefined;
    both.set(key, met);
  }
  return narrowed(both, space);
}

/** The parts of a box in which everything named is known. */
export function knownOnly(box: Box, { axes }: Space): Box | undefined {
  const known = new Map<string, CellSet>();
  for (const [key, cells] of box) {
    const left = cells & (axes.get(key)?.known ?? cells);
    if (left === 0n) return undefined;
    known.set(key, left);
  }
  return known;
}

/** Whether a kind lies in a box, as far as the box speaks of what kinds fix. */
export function liesIn(kind: PlanKind, box: Box, { axes }: Space): boolean {
  for (const [key, cells] of box) {
    const axis = axes.get(key);
    if (axis === undefined || !isSpecified(key)) continue;
    const cell = axis.samples.indexOf(kind.facts[key]);
    if (cell < 0 || (cells & (1n << BigInt(cell))) === 0n) return false;
  }
  return true;
}

/** Whether any plan there is lies in the box. */
export const isPossible = (box: Box, space: Space): boolean =>
  ![...box.keys()].some(isSpecified) ||
  PLAN_KINDS.some((kinds) => kinds.some((kind) => liesIn(kind, box, space)));

/** Whether a kind passes tests on the plan; undefined where they ask for what a kind does not fix. */
export function meets(kind: PlanKind, tests: readonly Test[]): boolean | undefined {
  if (tests.some((test) => !isSpecified(test.key))) return undefined;
  return tests.every((test) => judge(test.comparison, kind.facts[test.key], test.operand) === true);
}
