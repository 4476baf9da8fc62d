import type { QuiltCase } from '../casebook/model.ts';
import { inForce } from '../rulebook/in-force.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Answer } from './answer-model.ts';
import { castVotes, stopsIn } from './ballot.ts';
import { explain } from './explain.ts';
import { Force } from './force.ts';
import { prepare, type StudioPractice } from './prepare.ts';
import { opening } from './provisional.ts';
import { settle } from './settle.ts';
import type { Settled } from './settled.ts';
import { whenApproved } from './since-approval.ts';
import { type Judging, stageRules } from './verdicts.ts';

/** An answer with what it was made from, for documents and sweeps. */
export interface Decision extends Pick<Settled, 'situation' | 'outcome' | 'verdicts' | 'stops' | 'open'> {
  readonly answer: Answer;
}

/** A case prepared, judged, settled and explained; `asOf` is a date (`YYYY-MM-DD`): rules count that are in force then. */
export async function decideBy(
  judging: Judging,
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Decision> {
  const current: Knowledge = { ...knowledge, rulebook: inForce(knowledge.rulebook, asOf) };
  const settleCase = (one: QuiltCase) => settled(judging, one, current, studio, asOf);
  const now = await settleCase(quiltCase);
  const approved = whenApproved(quiltCase);
  const then = approved === undefined ? undefined : await settleCase(approved);
  const answer = explain(now, current, studio, then);
  const { situation, outcome, verdicts, stops, open } = now;
  return { answer, situation, outcome, verdicts, stops, open };
}

async function settled(
  judging: Judging,
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Settled> {
  const situation = prepare(quiltCase, knowledge, studio, asOf);
  const rules = stageRules(knowledge.rulebook);
  const verdicts = await judging(situation, knowledge.rulebook);
  const force = new Force(rules, verdicts);
  const ballot = castVotes(situation, rules, force);
  const outcome = settle(situation, ballot);
  if (outcome.best !== undefined) await verdicts.advise(outcome.best);
  const open = opening(situation, ballot, outcome);
  const stops = stopsIn(ballot);
  return { asGiven: quiltCase, situation, outcome, verdicts, force, ballot, rules, stops, open };
}
