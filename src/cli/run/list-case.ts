import { basename } from 'node:path';
import type { QuiltCase } from '../../casebook/model.ts';
import type { Treatment, Use } from '../../casebook/scales.ts';
import type { Answer } from '../../decision/answer-model.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { type DueFollowup, dueFollowup } from '../../experience/due.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import type { Standing } from '../../rulebook/model.ts';
import { openCase } from '../open-case.ts';
import type { Studio } from '../studio.ts';

/** One line of the list: a case that reads, with where it stands. */
export interface ListedCase {
  readonly case: string;
  readonly title: string | null;
  readonly standing: Standing;
  readonly treatment: Treatment | null;
  readonly provisional: boolean;
  readonly intended_use: Use | null;
  /** The latest day anything in the case is dated, or nothing where it is undated. */
  readonly updated: string | null;
  /** Whether a decision or an approval is written down in it. */
  readonly decided: boolean;
  /** The follow-up it owes on that day; nothing where it owes none. */
  readonly followup_due: { readonly months: number; readonly on: string } | null;
  /** What differs from what the case expects; nothing where it expects nothing. */
  readonly differs: readonly string[] | null;
}

/** A case file that could not be read, with the first thing wrong in it. */
export interface UnreadCase {
  readonly case: string;
  readonly problem: Problem;
}

export const isUnread = (each: ListedCase | UnreadCase): each is UnreadCase => 'problem' in each;

/** Reads and decides one case; what is wrong with it becomes part of the list, so that the others still come. */
export async function listCase(path: string, studio: Studio, asOf: string): Promise<ListedCase | UnreadCase> {
  try {
    const { case: quiltCase } = await openCase(path, studio);
    const { answer } = await decide(quiltCase, studio.knowledge, studio.practice, asOf);
    return listed(quiltCase, answer, dueFollowup(quiltCase, asOf, studio.knowledge.figures));
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    const problem = error.problems.find(({ severity }) => severity === 'error');
    if (problem === undefined) throw error;
    return { case: basename(path).replace(/\.ya?ml$/i, ''), problem };
  }
}

const listed = (quiltCase: QuiltCase, answer: Answer, due: DueFollowup | undefined): ListedCase => ({
  case: quiltCase.case,
  title: quiltCase.quilt.title ?? null,
  standing: answer.standing,
  treatment: answer.treatment,
  provisional: answer.provisional,
  intended_use: quiltCase.client.intended_use ?? null,
  updated: updated(quiltCase),
  decided: quiltCase.approved !== undefined || (quiltCase.decisions ?? []).length > 0,
  followup_due: due === undefined ? null : { months: due.months, on: due.on },
  differs:
    quiltCase.expect === undefined ? null : differences(quiltCase.expect, answer).map(({ what }) => what),
});

function updated({
  opened,
  survey,
  approved,
  resurveys,
  decisions,
  followups,
  log,
}: QuiltCase): string | null {
  const entries = [...(decisions ?? []), ...(followups ?? []), ...(log ?? [])].map(({ on }) => on);
  const days = [opened, survey.on, approved?.on, ...resurveys.map(({ on }) => on), ...entries];
  return (
    days
      .filter((day) => typeof day === 'string')
      .sort()
      .at(-1) ?? null
  );
}
