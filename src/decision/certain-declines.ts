import type { QuiltCase } from '../casebook/model.ts';
import { foundFacts } from '../findings/as-found.ts';
import type { Facts } from '../findings/fact.ts';
import { latestLook } from '../findings/latest-look.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import { judgeRule } from '../rulebook/fast.ts';
import type { Rule } from '../rulebook/model.ts';
import type { DecisionContext } from './context.ts';
import { Force } from './force.ts';
import { stageRules } from './verdicts.ts';

/**
 * Rules that decline on what is known already, whatever else is still found: fast enough to ask after every answer,
 * because no plan is made. `sized` says whether the case's size was told or only stands in. Facts of a plan or of the
 * quilt as planned are left unknown, so what needs them is never certain here.
 */
export const certainDeclines = (
  quiltCase: QuiltCase,
  { knowledge, practice }: DecisionContext,
  sized: boolean,
): readonly Rule[] => {
  const { vocabulary, figures, rulebook } = knowledge;
  const look = latestLook(quiltCase);
  const found: Facts = {
    ...foundFacts(look, surveyQuilt(look, figures), vocabulary, figures),
    'finding.washing_practice': practice.washing,
    ...(sized ? {} : { 'finding.area': undefined }),
  };
  const refused = rulebook.rules.some(
    ({ effects, ...rule }) =>
      effects.refuseUse !== undefined && judgeRule({ effects, ...rule }, found) === true,
  );
  // A refused use is set aside before anything else is judged; what would hold without it is for the whole decision.
  const facts: Facts = refused ? { ...found, 'finding.intended_use': undefined } : found;
  const rules = stageRules(rulebook);
  const quilt = (rule: Rule) => judgeRule(rule, facts);
  const force = new Force(rules, { quilt, plan: quilt, anyPlan: quilt });
  return rules.filter(
    (rule) => rule.effects.stand === 'decline' && !rule.perPlan && force.of(rule, undefined) === true,
  );
};
