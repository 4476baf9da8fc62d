import type { Rule } from '../../rulebook/model.ts';
import { boxesOf, liesIn, meet, meets } from '../boxes.ts';
import type { Box, Space } from '../cells.ts';
import { isEstimated, isSpecified, PLAN_KINDS, type PlanKind } from '../plan-kinds.ts';
import { type Check, type Diagnostic, type RulebookModel, sayBox } from '../rulebook-model.ts';

/**
 * Two rules that together leave no plan, though each alone leaves some, and neither yields: one calls for what the
 * other rules out, or for what cannot be had together. Decided over every plan there is on every kind of quilt.
 */
export const contradictions: Check = (examined) => {
  const removing = examined.rules.filter(
    ({ effects }) => effects.callFor !== undefined || effects.ruleOut !== undefined,
  );
  const decided = removing.filter((rule) => !rule.tests.some(isEstimated) && targetIsSpecified(rule));
  const remarks = decided.flatMap((a, index) =>
    decided.slice(index + 1).flatMap((b): Diagnostic[] => {
      if (a.effects.callFor === undefined && b.effects.callFor === undefined) return [];
      if (a.yieldsTo.includes(b.id) || b.yieldsTo.includes(a.id)) return [];
      const example = leavesNothing(a, b, examined);
      if (example === undefined) return [];
      return [
        {
          code: 'contradiction',
          severity: 'error',
          what: `"${a.id}" and "${b.id}" can both be true and together leave no plan`,
          rules: [a, b],
          example: sayBox(example, examined.space),
        },
      ];
    }),
  );
  const left = removing.filter((rule) => !decided.includes(rule)).map(({ id }) => id);
  return {
    remarks,
    notCovered:
      left.length === 0
        ? []
        : [
            `Contradictions that hang on what a plan's estimates come to were not looked for: ${left.join(', ')}.`,
          ],
  };
};

const targetIsSpecified = ({ effects: { callFor, ruleOut } }: Rule): boolean =>
  [callFor, ruleOut].every(
    (target) => target === undefined || target === 'this plan' || target.every(({ key }) => isSpecified(key)),
  );

/** A case in which both hold and no plan is left, and no standing that must hold with them says why. */
function leavesNothing(a: Rule, b: Rule, examined: RulebookModel): Box | undefined {
  const { space, waysTrue } = examined;
  for (const wayA of quiltParts(waysTrue(a))) {
    for (const wayB of quiltParts(waysTrue(b))) {
      const both = meet(wayA, wayB, space);
      if (both === undefined) continue;
      for (const kinds of PLAN_KINDS) {
        const onQuilt = kinds.filter((kind) => layersFit(kind, both, space));
        if (onQuilt.length === 0) continue;
        const gone = (rule: Rule): PlanKind[] => onQuilt.filter((kind) => removes(rule, kind, examined));
        const [byA, byB] = [gone(a), gone(b)];
        if (byA.length === onQuilt.length || byB.length === onQuilt.length) continue;
        if (new Set([...byA, ...byB]).size < onQuilt.length) continue;
        const open = unexplained(withLayers(both, onQuilt[0], space), examined);
        if (open !== undefined) return open;
      }
    }
  }
  return undefined;
}

const LAYERS: readonly string[] = ['finding.batting_kind', 'finding.backing_kind'];

/** The part of each way that speaks of the quilt; ways that then are alike count once. */
const quiltParts = (ways: readonly Box[]): Box[] => {
  const parts = ways.map(
    (way) => new Map([...way].filter(([key]) => !isSpecified(key) || LAYERS.includes(key))),
  );
  const name = (box: Box): string => [...box].map(([key, cells]) => `${key} ${cells}`).join();
  return [...new Map(parts.map((part) => [name(part), part])).values()];
};

const layersFit = (kind: PlanKind, box: Box, space: Space): boolean =>
  liesIn(kind, new Map([...box].filter(([key]) => LAYERS.includes(key))), space);

/** What the layers of a kind are, written into a box. */
function withLayers(box: Box, kind: PlanKind | undefined, { axes }: Space): Box {
  const both = new Map(box);
  for (const key of LAYERS) {
    const cell = axes.get(key)?.samples.indexOf(kind?.facts[key]) ?? -1;
    if (cell >= 0) both.set(key, 1n << BigInt(cell));
  }
  return both;
}

/** Whether a rule that holds of the quilt removes plans of this kind. */
function removes(rule: Rule, kind: PlanKind, { waysTrue, space }: RulebookModel): boolean {
  if (rule.perPlan && !waysTrue(rule).some((way) => liesIn(kind, way, space))) return false;
  const { ruleOut, callFor } = rule.effects;
  if (ruleOut === 'this plan') return true;
  if (ruleOut !== undefined && meets(kind, ruleOut) === true) return true;
  return callFor !== undefined && meets(kind, callFor) === false;
}

/** A part of the box in which no rule declines or refers; undefined where such a rule always holds with it. */
export function unexplained(box: Box, { rules, space }: RulebookModel): Box | undefined {
  const explaining = rules.filter(
    ({ effects, tests }) =>
      (effects.stand === 'decline' || effects.stand === 'refer') && tests.some(({ key }) => box.has(key)),
  );
  let open: Box[] = [box];
  for (const rule of explaining) {
    const silent = boxesOf(rule.when, 'not true', space);
    open = open.flatMap((part) => silent.flatMap((way) => meet(part, way, space) ?? [])).slice(0, 200);
    if (open.length === 0) return undefined;
  }
  return open[0];
}
