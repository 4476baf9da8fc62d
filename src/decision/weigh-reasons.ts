import type { Rule } from '../rulebook/model.ts';
import type { Alternative } from './alternatives.ts';
import { isDeciding, rulesWithAPart } from './deciding.ts';
import type { Fate, Outcome } from './settle.ts';
import { recommendedOption, type Settled } from './settled.ts';

/** A rule that had a part in the answer, and the plan its sentence is filled from. */
export interface WeighedReason {
  readonly rule: Rule;
  readonly option: number | undefined;
  /** True where standing or treatment would be another without it. */
  readonly deciding: boolean;
}

/**
 * Reasons with the most telling first: those that alone decide; those that set a standing; those that speak for the
 * recommendation, by how many other treatments they do not speak for; those that speak against others, by how many.
 */
export function weighReasons(settled: Settled, all: readonly Alternative[]): WeighedReason[] {
  const { situation, outcome, force, ballot, rules } = settled;
  const ours = recommendedOption(settled)?.index;
  const others = all.filter(({ outcome: each }) => each !== 'recommended');
  const parts = rulesWithAPart(rules, force, outcome).map((rule, order) => ({
    rule,
    order,
    option: optionFor(rule, outcome, ours),
    deciding: isDeciding(rule, situation, ballot, outcome),
    standing: outcome.standingRules.includes(rule)
      ? outcome.standingRules.indexOf(rule)
      : outcome.standingRules.length,
    supports: speaksFor(rule, ours === undefined ? undefined : outcome.fates[ours]),
    apart: others.filter(({ fate }) => !speaksFor(rule, fate)).length,
  }));
  return parts.sort(
    (a, b) =>
      Number(b.deciding) - Number(a.deciding) ||
      a.standing - b.standing ||
      Number(b.supports) - Number(a.supports) ||
      b.apart - a.apart ||
      a.order - b.order,
  );
}

/** Whether a rule prefers a plan, or calls for what the plan has; a rule that parts no treatment from another says little. */
const speaksFor = (rule: Rule, fate: Fate | undefined): boolean =>
  fate !== undefined &&
  (fate.prefers.includes(rule) || (rule.effects.callFor !== undefined && !fate.removedBy.includes(rule)));

/** The plan a rule is quoted for: ours where it speaks of ours, else the first plan it removed or is avoided for. */
function optionFor(rule: Rule, outcome: Outcome, ours: number | undefined): number | undefined {
  const speaks = (option: number): boolean => {
    const fate = outcome.fates[option];
    return fate !== undefined && [...fate.removedBy, ...fate.prefers, ...fate.avoids].includes(rule);
  };
  if (!rule.perPlan) return ours;
  if (ours !== undefined && speaks(ours)) return ours;
  const other = outcome.fates.findIndex((_, option) => speaks(option));
  return other < 0 ? ours : other;
}
