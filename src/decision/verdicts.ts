import type { Facts } from '../findings/fact.ts';
import { oncePer } from '../quantities/once.ts';
import { RulesRun } from '../rulebook/engine.ts';
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

/** Verdicts with their traces, for a decision of record. */
export interface TracedVerdicts extends Verdicts {
  trace(rule: Rule, option: number | undefined): Trace | undefined;
  /** Puts all rules about plans to the engine for one plan: the recommended one. */
  advise(option: number): Promise<void>;
}

export const stageRules = oncePer((rulebook: Rulebook): Rule[] =>
  rulebook.rules.filter((rule) => rule.group !== 'units'),
);

/** Rules that refuse a use look at what was asked; all others at what is left to serve. */
const factsFor = (rule: Rule, situation: Situation): Facts =>
  rule.effects.refuseUse === undefined ? situation.facts : situation.asked;

/**
 * The decision of record: json-rules-engine judges the quilt, and the plan that is recommended, and every verdict
 * keeps its trace. The search among all plans that leads to that one is a sweep like any other: a hundred plans on
 * the engine would take longer than the rest of the start. Where the two ways of judging ever differ, there is no answer.
 */
export async function recordVerdicts(situation: Situation, rulebook: Rulebook): Promise<TracedVerdicts> {
  const rules = stageRules(rulebook);
  const fast = fastVerdicts(situation);
  const once = rules.filter((rule) => !rule.perPlan);
  const refusing = await new RulesRun(once.filter((rule) => rule.effects.refuseUse !== undefined)).run(
    situation.asked,
  );
  const general = await new RulesRun(once.filter((rule) => rule.effects.refuseUse === undefined)).run(
    situation.facts,
  );
  const quilt = new Map([...refusing, ...general]);
  const perPlan = rules.filter((rule) => rule.perPlan);
  const recorded = new Map<number, Map<string, Trace>>();
  const trace = (rule: Rule, option: number | undefined): Trace | undefined => {
    if (!rule.perPlan || option === undefined) return quilt.get(rule.id);
    const facts = situation.options[option]?.facts;
    return recorded.get(option)?.get(rule.id) ?? (facts === undefined ? undefined : traceRule(rule, facts));
  };
  return {
    trace,
    advise: async (option) => {
      const facts = situation.options[option]?.facts;
      if (facts === undefined) return;
      const traces = await new RulesRun(perPlan).run(facts);
      for (const rule of perPlan) {
        if (traces.get(rule.id)?.truth !== fast.plan(rule, option))
          throw new Error(`the rule ${rule.id} is judged in two ways`);
      }
      recorded.set(option, traces);
    },
    quilt: (rule) => quilt.get(rule.id)?.truth,
    anyPlan: (rule) => (rule.perPlan ? fast.anyPlan(rule) : quilt.get(rule.id)?.truth),
    plan: (rule, option) => recorded.get(option)?.get(rule.id)?.truth ?? fast.plan(rule, option),
  };
}

/** The same verdicts without the engine, judged when first asked for: for sweeps. */
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
