import { type CaseResult, resultOf } from '../../src/analysis/study.ts';
import { settle } from '../../src/decision/outcome.ts';
import { ActiveRules, evaluateRules } from '../../src/decision/precedence.ts';
import type { Situation } from '../../src/decision/situation.ts';
import { collectVotes } from '../../src/decision/votes.ts';
import type { Rule } from '../../src/rulebook/model.ts';
import type { Subjects } from '../../src/rulebook/subjects.ts';

/** A situation settled by other rules of the stages. Rules of units have had their say when it was made. */
export function evaluateCase(
  situation: Situation,
  rules: readonly Rule[],
  subjects: Subjects,
  truths = evaluateRules(situation),
): CaseResult {
  const active = new ActiveRules(rules, truths);
  const ballot = collectVotes(situation, rules, active);
  return resultOf({ situation, rules, active, ballot, outcome: settle(situation, ballot) }, subjects);
}
