import type { QuiltCase } from '../casebook/model.ts';
import type { Facts } from '../findings/fact.ts';
import { ProblemError } from '../problems/problem.ts';
import { RulesRun } from '../rulebook/engine.ts';
import { traceRule } from '../rulebook/evaluate.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import type { Answer } from './answer-model.ts';
import type { DecisionContext } from './context.ts';
import { evaluate } from './evaluate.ts';
import { explain } from './explain.ts';
import type { Settled } from './outcome.ts';
import { groupFacts, unitRules } from './quilt-facts.ts';

/** An answer with what it was made from. */
export interface Decision extends Settled {
  readonly answer: Answer;
}

/** A case evaluated and explained. Same input, same bytes. */
export const decideQuick = (quiltCase: QuiltCase, context: DecisionContext): Decision => {
  const settled = evaluate(quiltCase, context);
  return { ...settled, answer: explain(settled, context) };
};

/** The same, confirmed by json-rules-engine: what is recorded, printed or put on paper. */
export async function decide(quiltCase: QuiltCase, context: DecisionContext): Promise<Decision> {
  const decision = decideQuick(quiltCase, context);
  await confirm(decision, context);
  return decision;
}

/**
 * Puts every rule that an answer may cite to json-rules-engine and compares verdict and trace: rules of the quilt and of
 * refused uses, rules of units on every group, rules of plans on the plan shown for each treatment. Throws ProblemError
 * `engine-disagrees`: where two independent ways of judging differ there is no answer of record.
 */
export async function confirm(settled: Settled, context: DecisionContext): Promise<void> {
  const { situation, rules, outcome, gentler, whenApproved } = settled;
  const ofQuilt = rules.filter((rule) => !rule.perPlan);
  const refusesUse = ({ effects }: Rule): boolean => effects.refuseUse !== undefined;
  await compare(ofQuilt.filter(refusesUse), situation.asked);
  await compare(
    ofQuilt.filter((rule) => !refusesUse(rule)),
    situation.facts,
  );
  const perPlan = rules.filter((rule) => rule.perPlan);
  for (const { option } of alternatives(situation, outcome))
    await compare(perPlan, situation.options[option]?.facts ?? {});
  for (const { group } of situation.actions)
    for (const own of groupFacts(situation.quilt, group))
      await compare(unitRules(context.knowledge.rulebook), { ...situation.found, ...own });
  for (const other of [gentler, whenApproved]) if (other !== undefined) await confirm(other, context);
}

async function compare(rules: readonly Rule[], facts: Facts): Promise<void> {
  const traces = await new RulesRun(rules).run(facts);
  for (const rule of rules) {
    if (JSON.stringify(traces.get(rule.id)) === JSON.stringify(traceRule(rule, facts))) continue;
    throw new ProblemError([
      {
        code: 'engine-disagrees',
        severity: 'error',
        what: `The rule "${rule.id}" was judged in two ways, and they do not agree`,
        place: rule.place,
      },
    ]);
  }
}
