import { basename } from 'node:path';
import type { QuiltCase } from '../../casebook/model.ts';
import type { Treatment, Use } from '../../casebook/scales.ts';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { evaluate } from '../../decision/evaluate.ts';
import { differences } from '../../decision/expectation.ts';
import { provisionalOn } from '../../decision/provisional.ts';
import { dueFollowup, type FollowedUp } from '../../experience/due.ts';
import type { Figures } from '../../figures/model.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import type { Standing } from '../../rulebook/model.ts';
import { openText } from '../open-case.ts';
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

/** What the list says of a case whatever the day, and as much of the case as tells what it owes on one. */
export interface Listing {
  readonly line: Omit<ListedCase, 'followup_due'>;
  readonly followed: FollowedUp;
}

export function onDay({ line, followed }: Listing, day: string, figures: Figures): ListedCase {
  const due = dueFollowup(followed, day, figures);
  const { differs, ...rest } = line;
  return { ...rest, followup_due: due === undefined ? null : { months: due.months, on: due.on }, differs };
}

/** Reads and decides one case; what is wrong with it becomes part of the list, so that the others still come. */
export async function listCase(
  path: string,
  text: string,
  studio: Studio,
  asOf: string,
): Promise<Listing | UnreadCase> {
  try {
    const { case: quiltCase } = openText(path, text, studio);
    const { completed, followups } = quiltCase;
    return {
      line: await lineOf(quiltCase, studio, asOf),
      followed: {
        case: quiltCase.case,
        ...(completed === undefined ? {} : { completed }),
        ...(followups === undefined ? {} : { followups }),
      },
    };
  } catch (error) {
    return unread(path, error);
  }
}

/** A case that cannot be read, as a line of the list; any other fault is thrown on. */
export function unread(path: string, error: unknown): UnreadCase {
  const problem =
    error instanceof ProblemError
      ? error.problems.find(({ severity }) => severity === 'error')
      : { code: 'internal' as const, severity: 'error' as const, what: String(error) };
  if (problem === undefined) throw error;
  return { case: basename(path).replace(/\.ya?ml$/i, ''), problem };
}

async function lineOf(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<Listing['line']> {
  const { standing, treatment, provisional, differs } = await standingOf(quiltCase, studio, asOf);
  return {
    case: quiltCase.case,
    title: quiltCase.quilt.title ?? null,
    standing,
    treatment,
    provisional,
    intended_use: quiltCase.client.intended_use ?? null,
    updated: updated(quiltCase),
    decided: quiltCase.approved !== undefined || (quiltCase.decisions ?? []).length > 0,
    differs,
  };
}

type Stands = Pick<ListedCase, 'standing' | 'treatment' | 'provisional' | 'differs'>;

/** What a case expects is held against the decision of record; where it expects nothing the fast path says the same. */
async function standingOf(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<Stands> {
  const context = contextOf(studio, asOf);
  if (quiltCase.expect !== undefined) {
    const { answer } = await decide(quiltCase, context);
    const { standing, treatment, provisional } = answer;
    const differs = differences(quiltCase.expect, answer).map(({ what }) => what);
    return { standing, treatment, provisional, differs };
  }
  const { situation, ballot, outcome } = evaluate(quiltCase, context);
  const { standing, treatment } = outcome;
  const provisional = provisionalOn(situation, ballot, outcome);
  return { standing, treatment, provisional, differs: null };
}

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
