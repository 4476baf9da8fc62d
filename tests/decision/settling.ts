import type { QuiltCase } from '../../src/casebook/model.ts';
import { type Outcome, settle } from '../../src/decision/outcome.ts';
import { ActiveRules, evaluateRules, type RuleTruths, stageRules } from '../../src/decision/precedence.ts';
import { prepare } from '../../src/decision/prepare.ts';
import type { Situation } from '../../src/decision/situation.ts';
import { collectVotes } from '../../src/decision/votes.ts';
import type { Rule } from '../../src/rulebook/model.ts';
import { context, shipped } from './shipped.ts';

export const RULES: readonly Rule[] = stageRules(shipped.rulebook);

export const situationOf = (quiltCase: QuiltCase): Situation => prepare(quiltCase, context);

/** From a situation to its outcome, by the fast evaluator unless other verdicts are given. */
export function outcomeOf(
  situation: Situation,
  rules: readonly Rule[] = RULES,
  truths: RuleTruths = evaluateRules(situation),
): Outcome {
  return settle(situation, collectVotes(situation, rules, new ActiveRules(rules, truths)));
}

/** Names of the plans left, best first. */
export const plansLeft = (situation: Situation, { ranking }: Outcome): string[] =>
  ranking.map(({ option }) => situation.options[option]?.plan.id ?? 'no such plan');

/** Names of the plans some rule removes. */
export const plansRemoved = (situation: Situation, { planOutcomes }: Outcome): string[] =>
  planOutcomes.flatMap(({ removedBy }, option) =>
    removedBy.length === 0 ? [] : [situation.options[option]?.plan.id ?? 'no such plan'],
  );
