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
  /** What holds whatever the plan; undefined where it depends on the plan, or was not asked. */
  anyPlan(rule: Rule): Truth;
}

/** Verdicts with their traces, for a decision that says why. */
export interface TracedVerdicts extends Verdicts {
  trace(rule: Rule, option: number | undefined): Trace | undefined;
  /** Told which plan is recommended: the record puts all rules about plans to the engine for that one. */
  advise(option: number): Promise<void>;
}

export const stageRules = oncePer((rulebook: Rulebook): Rule[] =>
  rulebook.rules.filter((rule) => rule.group !== 'units'),
);

/** How verdicts are come by: by the engine for the record, or by our own evaluator. */
export type Judging = (situation: Situation, rulebook: Rulebook) => Promise<TracedVerdicts>;

/** Rules that refuse a use look at what was asked; all others at what is left to serve. */
const factsFor = (rule: Rule, situation: Situation): Facts =>
  rule.effects.refuseUse === undefined ? situation.facts : situation.asked;

/** Verdicts of our own evaluator, each judged when first asked for: the same as the engine's, a hundred times sooner. */
export function fastVerdicts(situation: Situation): Verdicts {
  const once = new Map<Rule, Truth>();
  const whatever = new Map<Rule, Truth>();
  const remember = (memory: Map<Rule, Truth>, rule: Rule, work: () => Truth): Truth => {
    if (!memory.has(rule)) memory.set(rule, work());
    return memory.get(rule);
  };
  const quilt = (rule: Rule): Truth => remember(once, rule, () => judgeRule(rule, factsFor(rule, situation)));
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

/** The same with traces: for a quick answer. */
export const quickVerdicts: Judging = async (situation) => ({
  ...fastVerdicts(situation),
  trace: (rule, option) => {
    const plan = rule.perPlan && option !== undefined ? situation.options[option] : undefined;
    return traceRule(rule, plan?.facts ?? factsFor(rule, situation));
  },
  advise: async () => {},
});
