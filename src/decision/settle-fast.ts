import type { Rule } from '../rulebook/model.ts';
import { type Ballot, castVotes } from './ballot.ts';
import { Force } from './force.ts';
import { type Outcome, settle } from './settle.ts';
import type { Situation } from './situation.ts';
import { fastVerdicts } from './verdicts.ts';

/** A situation settled, with what it was settled by. */
export interface SettledFast {
  readonly outcome: Outcome;
  readonly force: Force;
  readonly ballot: Ballot;
}

/** Settles by the fast evaluator: the same outcome as that of the decision of record, without its traces. */
export function settleFast(situation: Situation, rules: readonly Rule[]): SettledFast {
  const force = new Force(rules, fastVerdicts(situation));
  const ballot = castVotes(situation, rules, force);
  return { outcome: settle(situation, ballot), force, ballot };
}
