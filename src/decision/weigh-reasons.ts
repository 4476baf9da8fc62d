import type { Rule } from '../rulebook/model.ts';
import type { Alternative } from './alternatives.ts';
import { isDeciding, rulesWithAPart } from './deciding.ts';
import type { Outcome } from './settle.ts';
import { recommendedOption, type Settled } from './settled.ts';

/** A rule that had a part in the answer, and the plan its sentence is filled from. */
export interface WeighedReason {
  readonly rule: Rule;
  readonly option: number | undefined;
  /** True where standing or treatment would be another without it. */
  readonly deciding: boolean;
}

/**
 * Reasons with the most telling first: those that alone decide; then those that set a standing; then by how many of
 * the other treatments they speak against; then in stage order.
 */
export function weighReasons(settled: Settled, all: readonly Alternative[]): WeighedReason[] {
  const { situation, outcome, force, ballot, rules } = settled;
  const ours = recommendedOption(settled)?.index;
  const against = (rule: Rule): number =>
    all.filter(({ reasons }) => reasons.some((each) => each.rule === rule)).length;
  const parts = rulesWithAPart(rules, force, outcome).map((rule, order) => ({
    rule,
    order,
    option: optionFor(rule, outcome, ours),
    deciding: isDeciding(rule, situation, ballot, outcome),
    standing: outcome.standingRules.indexOf(rule),
    against: against(rule),
  }));
  const rankOf = (standing: number): number => (standing < 0 ? outcome.standingRules.length : standing);
  return parts.sort(
    (a, b) =>
      Number(b.deciding) - Number(a.deciding) ||
      rankOf(a.standing) - rankOf(b.standing) ||
      b.against - a.against ||
      a.order - b.order,
  );
}

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
