import type { Facts } from '../findings/fact.ts';
import { RulesRun } from '../rulebook/engine.ts';
import { judgeRule, judgeWhateverThePlan } from '../rulebook/fast.ts';
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
  /** Judges rules about plans that only advise, for one plan: nobody reads what they say of the others. */
  advise(option: number): Promise<void>;
}

export const stageRules = (rulebook: Rulebook): Rule[] =>
  rulebook.rules.filter((rule) => rule.group !== 'units');

/** Rules that refuse a use look at what was asked; all others at what is left to serve. */
const factsFor = (rule: Rule, situation: Situation): Facts =>
  rule.effects.refuseUse === undefined ? situation.facts : situation.asked;

/** Whether a rule has a say in which plan is chosen. */
const weighs = ({ effects }: Rule): boolean =>
  effects.ruleOut !== undefined ||
  effects.callFor !== undefined ||
  effects.prefer !== undefined ||
  effects.avoid !== undefined;

/** A rule that asks whether something of the plan is known cannot be judged before there is a plan. */
const asksWhetherKnown = (rule: Rule): boolean =>
  rule.tests.some(({ comparison }) => comparison === 'is known' || comparison === 'is unknown');

/**
 * The decision of record: json-rules-engine judges, and every verdict keeps its trace. Rules about plans are put to
 * the engine once on the quilt alone: those already false there are false for every plan, and not asked again.
 */
export async function recordVerdicts(situation: Situation, rulebook: Rulebook): Promise<TracedVerdicts> {
  const rules = stageRules(rulebook);
  const once = rules.filter((rule) => !rule.perPlan);
  const refusing = await new RulesRun(once.filter((rule) => rule.effects.refuseUse !== undefined)).run(
    situation.asked,
  );
  const general = await new RulesRun(once.filter((rule) => rule.effects.refuseUse === undefined)).run(
    situation.facts,
  );
  const quilt = new Map([...refusing, ...general]);
  const perPlan = rules.filter((rule) => rule.perPlan);
  const early = await new RulesRun(perPlan.filter((rule) => !asksWhetherKnown(rule))).run(situation.facts);
  const isOut = (rule: Rule): boolean => early.get(rule.id)?.truth === false;
  const asked = perPlan.filter((rule) => !isOut(rule));
  const weighing = new RulesRun(asked.filter(weighs));
  const advising = new RulesRun(asked.filter((rule) => !weighs(rule)));
  const plans: Map<string, Trace>[] = [];
  // In sequence: the engine is not safe to overlap.
  for (const option of situation.options) plans.push(await weighing.run(option.facts));
  const trace = (rule: Rule, option: number | undefined): Trace | undefined =>
    rule.perPlan && option !== undefined
      ? (plans[option]?.get(rule.id) ?? (isOut(rule) ? early.get(rule.id) : undefined))
      : quilt.get(rule.id);
  return {
    trace,
    advise: async (index) => {
      const option = situation.options[index];
      if (option === undefined) return;
      for (const [rule, found] of await advising.run(option.facts)) plans[index]?.set(rule, found);
    },
    quilt: (rule) => trace(rule, undefined)?.truth,
    anyPlan: (rule) => (!rule.perPlan ? trace(rule, undefined)?.truth : isOut(rule) ? false : undefined),
    plan: (rule, option) => trace(rule, option)?.truth,
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
