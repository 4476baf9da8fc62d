import type { QuiltCase } from '../casebook/model.ts';
import { prepare, type StudioPractice } from '../decision/prepare.ts';
import { type SettledFast, settleFast } from '../decision/settle-fast.ts';
import type { Situation } from '../decision/situation.ts';
import type { Verdict } from '../decision/verdict.ts';
import { stageRules } from '../decision/verdicts.ts';
import { inForce } from '../rulebook/in-force.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';

/** What cases are decided by, wherever many of them are. */
export interface Court {
  readonly knowledge: Knowledge;
  readonly practice: StudioPractice;
  /** The rules in force on this day, `YYYY-MM-DD`. */
  readonly asOf: string;
}

/** A case decided on the fast path, with what the decision was made from. */
export interface Quick extends SettledFast {
  readonly situation: Situation;
}

/** Decides by the fast evaluator: the same answer as the decision of record, without its traces. */
export const quickly = (quiltCase: QuiltCase, { knowledge, practice, asOf }: Court): Quick => {
  const current: Knowledge = { ...knowledge, rulebook: inForce(knowledge.rulebook, asOf) };
  const situation = prepare(quiltCase, current, practice, asOf);
  return { situation, ...settleFast(situation, stageRules(current.rulebook)) };
};

export const verdictOf = (quiltCase: QuiltCase, court: Court): Verdict => {
  const { standing, treatment } = quickly(quiltCase, court).outcome;
  return { standing, treatment };
};
