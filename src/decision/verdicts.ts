import type { Facts } from '../findings/fact.ts';
import { oncePer } from '../quantities/once.ts';
import { judgeRule, judgeWhateverThePlan, traceRule } from '../rulebook/fast.ts';
import type { Trace, Truth } from '../rulebook/kleene.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import type { Situation } from './situation.ts';

/** How every rule of the stages came out: once for the quilt, or once for each plan. */
export interface Verdicts {
  quilt(rule: Rule): Truth;
  plan(rule: Rule, option: number): Truth;
  /** What holds whatever the plan; undefined where it depends on the plan. */
  anyPlan(rule: Rule): Truth;
}

export const stageRules = oncePer((rulebook: Rulebook): Rule[] =>
  rulebook.rules.filter((rule) => rule.group !== 'units'),
);

/** What a rule reads: those that refuse a use look at what was asked, all others at what is left to serve. */
export const factsFor = (rule: Rule, situation: Situation, option: number | undefined): Facts => {
  if (rule.effects.refuseUse !== undefined) return situation.asked;
  const plan = rule.perPlan && option !== undefined ? situation.options[option] : undefined;
  return plan?.facts ?? situation.facts;
};

/** A verdict with those of all its parts: what explanations are read from. */
export const traceOf = (rule: Rule, situation: Situation, option: number | undefined): Trace =>
  traceRule(rule, factsFor(rule, situation, option));

/** Verdicts on one situation, each worked out when first asked for. */
export function fastVerdicts(situation: Situation): Verdicts {
  const once = new Map<Rule, Truth>();
  const whatever = new Map<Rule, Truth>();
  const remember = (memory: Map<Rule, Truth>, rule: Rule, work: () => Truth): Truth => {
    if (!memory.has(rule)) memory.set(rule, work());
    return memory.get(rule);
  };
  const quilt = (rule: Rule): Truth =>
    remember(once, rule, () => judgeRule(rule, factsFor(rule, situation, undefined)));
  const anyPlan = (rule: Rule): Truth =>
    rule.perPlan ? remember(whatever, rule, () => judgeWhateverThePlan(rule, situation.facts)) : quilt(rule);
  return {
    quilt,
    anyPlan,
    plan: (rule, index) => {
      const option = situation.options[index];
      return (
        anyPlan(rule) ?? (option === undefined || !rule.perPlan ? undefined : judgeRule(rule, option.facts))
      );
    },
  };
}
