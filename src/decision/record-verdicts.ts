import { RulesRun } from '../rulebook/engine.ts';
import { traceRule } from '../rulebook/fast.ts';
import type { Trace } from '../rulebook/kleene.ts';
import type { Rule } from '../rulebook/model.ts';
import { fastVerdicts, type Judging, stageRules } from './verdicts.ts';

/**
 * The decision of record: json-rules-engine judges the quilt, and the plan that is recommended, and every verdict
 * keeps its trace. The search among all plans that leads to that one is a sweep like any other: a hundred plans on
 * the engine would take longer than the rest of the start. Where the two ways of judging ever differ, there is no answer.
 */
export const recordVerdicts: Judging = async (situation, rulebook) => {
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
};
