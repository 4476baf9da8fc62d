import type { QuiltCase } from '../casebook/model.ts';
import { castVotes, stopsIn } from './ballot.ts';
import type { DecisionContext } from './context.ts';
import { Force } from './force.ts';
import { prepare } from './prepare.ts';
import { settle } from './settle.ts';
import type { Settled } from './settled.ts';
import { whenApproved } from './since-approval.ts';
import type { Verdict } from './verdict.ts';
import { fastVerdicts, stageRules } from './verdicts.ts';

/**
 * The way of a case, in one direction: facts, plans and their estimates, what the rules say of each, and what they
 * leave. Everything that asks what a quilt would be advised goes through here, whether one answer is wanted or thousands.
 */
export function evaluate(onFile: QuiltCase, context: DecisionContext): Settled {
  const quiltCase = knownOn(onFile, context.day);
  const situation = prepare(quiltCase, context);
  const rules = stageRules(context.knowledge.rulebook);
  const force = new Force(rules, fastVerdicts(situation));
  const ballot = castVotes(situation, rules, force);
  const outcome = settle(situation, ballot);
  const approved = whenApproved(quiltCase);
  return {
    asGiven: quiltCase,
    situation,
    rules,
    force,
    ballot,
    outcome,
    stops: stopsIn(ballot),
    whenApproved: approved === undefined ? undefined : evaluate(approved, context),
  };
}

/** What is dated after the day lifts no stop on it. */
function knownOn(quiltCase: QuiltCase, day: string): QuiltCase {
  const { treated } = quiltCase;
  if (treated === undefined || treated.every(({ on }) => on <= day)) return quiltCase;
  return { ...quiltCase, treated: treated.filter(({ on }) => on <= day) };
}

/** What most questions want of it: standing and treatment. */
export function verdictOf(quiltCase: QuiltCase, context: DecisionContext): Verdict {
  const { standing, treatment } = evaluate(quiltCase, context).outcome;
  return { standing, treatment };
}
