import type { QuiltCase } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import { castVotes } from '../decision/ballot.ts';
import { Force } from '../decision/force.ts';
import { prepare, type StudioPractice } from '../decision/prepare.ts';
import { type Outcome, settle } from '../decision/settle.ts';
import type { Situation } from '../decision/situation.ts';
import { fastVerdicts, stageRules } from '../decision/verdicts.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Standing } from '../rulebook/model.ts';

/** What cases are decided by, wherever many of them are. */
export interface Court {
  readonly knowledge: Knowledge;
  readonly practice: StudioPractice;
  /** The rules in force on this day, `YYYY-MM-DD`. */
  readonly asOf: string;
}

export interface Verdict {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}

/** A case decided on the fast path, with what the decision was made from. */
export interface Quick {
  readonly situation: Situation;
  readonly outcome: Outcome;
  readonly force: Force;
  readonly ballot: ReturnType<typeof castVotes>;
}

/** Decides by the fast evaluator: the same answer as the decision of record, without its traces. */
export const quickly = (quiltCase: QuiltCase, { knowledge, practice, asOf }: Court): Quick => {
  const current: Knowledge = { ...knowledge, rulebook: inForce(knowledge.rulebook, asOf) };
  const situation = prepare(quiltCase, current, practice, asOf);
  const rules = stageRules(current.rulebook);
  const force = new Force(rules, fastVerdicts(situation));
  const ballot = castVotes(situation, rules, force);
  return { situation, outcome: settle(situation, ballot), force, ballot };
};

export const verdictOf = (quiltCase: QuiltCase, court: Court): Verdict => {
  const { standing, treatment } = quickly(quiltCase, court).outcome;
  return { standing, treatment };
};

export const sameVerdict = (a: Verdict, b: Verdict): boolean =>
  a.standing === b.standing && a.treatment === b.treatment;
