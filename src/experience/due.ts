import { type Followup, OPENINGS, type QuiltCase } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';

/** A follow-up that ought to have been made. */
interface DueFollowup {
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

/** How a repair has held, as far as follow-ups tell. Years since the work was done. */
export interface RepairOutcome {
  /** Last known to need no repair. */
  readonly wholeAt: number;
  /** Found to need repair; undefined where it has not yet. It came due between `wholeAt` and then. */
  readonly dueAt: number | undefined;
  readonly followups: number;
}

/** Days in a year, leap years shared out. */
const YEAR = 365.25;

const dayNumber = (day: string): number => Date.parse(`${day}T00:00:00Z`) / 86_400_000;

const yearsBetween = (from: string, to: string): number => (dayNumber(to) - dayNumber(from)) / YEAR;

/** Whether a follow-up says that repair is due. Openings none anywhere say that it is not; openings alone say neither. */
const saysDue = ({ repair_due: due, openings }: Followup): boolean | undefined => {
  if (due !== undefined) return due;
  if (openings === undefined) return undefined;
  return OPENINGS.every((where) => openings[where] === 0) ? false : undefined;
};

/** What has become of a repair; undefined where the work is not done or nobody has looked since. */
export const repairOutcome = ({ completed, followups = [] }: QuiltCase): RepairOutcome | undefined => {
  if (completed === undefined) return undefined;
  let wholeAt = 0;
  for (const followup of followups) {
    const due = saysDue(followup);
    const years = yearsBetween(completed.on, followup.on);
    if (due === true) return { wholeAt, dueAt: Math.max(years, 1 / YEAR), followups: followups.length };
    if (due === false) wholeAt = years;
  }
  return wholeAt > 0 ? { wholeAt, dueAt: undefined, followups: followups.length } : undefined;
};

/** The outcome in words, for lists of cases: "held 2.0 years so far", "repair due between 1.0 and 2.0 years". */
export const sayOutcome = ({ wholeAt, dueAt }: RepairOutcome): string =>
  dueAt === undefined
    ? `held ${wholeAt.toFixed(1)} years so far`
    : `repair due between ${wholeAt.toFixed(1)} and ${dueAt.toFixed(1)} years`;

/** The case with the use and washing that follow-ups report, where they differ from what was intended. */
export const asUsed = (quiltCase: QuiltCase): QuiltCase => {
  const told = quiltCase.followups ?? [];
  const use = told
    .map((one) => one.use)
    .filter((one) => one !== undefined)
    .at(-1);
  const washing = told
    .map((one) => one.washing)
    .filter((one) => one !== undefined)
    .at(-1);
  return {
    ...quiltCase,
    client: { ...quiltCase.client, ...(use === undefined ? {} : { intended_use: use }) },
    survey: {
      ...quiltCase.survey,
      findings: {
        ...quiltCase.survey.findings,
        ...(washing === undefined ? {} : { washing_planned: washing }),
      },
    },
  };
};
