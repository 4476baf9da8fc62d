import type { QuiltCase } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import { saysDue } from './repair-outcome.ts';

/** A follow-up that ought to have been made. */
export interface DueFollowup {
  readonly case: string;
  /** Months after the work. */
  readonly months: number;
  /** The day it fell due, `YYYY-MM-DD`. */
  readonly on: string;
  /** How many others before it were missed. */
  readonly missed: number;
}

/** The day so many months later; the last of the month where that month is too short. */
export const monthsAfter = (day: string, months: number): string => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const index = year * 12 + (month - 1) + months;
  const [y, m] = [Math.floor(index / 12), index % 12];
  const leap = (y % 4 === 0 && y % 100 !== 0) || y % 400 === 0;
  const lengths = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  const pad = (value: number, digits: number): string => String(value).padStart(digits, '0');
  return `${pad(y, 4)}-${pad(m + 1, 2)}-${pad(Math.min(date, lengths[m] ?? 31), 2)}`;
};

/** The days on which a quilt finished on a day is asked after. */
export const followupDays = (
  finished: string,
  figures: Figures,
): readonly { readonly months: number; readonly on: string }[] =>
  (['first', 'second', 'third'] as const)
    .map((which) => figures.number(`experience.followup.${which}`))
    .map((months) => ({ months, on: monthsAfter(finished, months) }));

/** As much of a case as says which follow-ups it owes. */
export type FollowedUp = Pick<QuiltCase, 'case' | 'completed' | 'followups'>;

/**
 * The latest follow-up a case owes on a day, or undefined where it owes none: nothing was finished, the first one is
 * not yet due, or every one due was made. A follow-up up to a month early answers for the one due.
 */
export const dueFollowup = (
  quiltCase: FollowedUp,
  today: string,
  figures: Figures,
): DueFollowup | undefined => {
  const { completed, followups = [] } = quiltCase;
  if (completed === undefined) return undefined;
  // What was found to need repair has told its story; the next repair is a case of its own.
  if (followups.some((one) => saysDue(one) === true)) return undefined;
  const early = figures.number('experience.followup.early');
  const owed = followupDays(completed.on, figures)
    .map(({ months, on }) => ({ months, on, from: monthsAfter(completed.on, months - early) }))
    .filter(({ on }) => on <= today);
  const latest = followups
    .map(({ on }) => on)
    .sort()
    .at(-1);
  const open = owed.filter(({ from }) => latest === undefined || latest < from);
  const last = open.at(-1);
  return last && { case: quiltCase.case, months: last.months, on: last.on, missed: open.length - 1 };
};
