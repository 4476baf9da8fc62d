import type { Followup, QuiltCase } from '../casebook/model.ts';
import { OPENINGS } from '../casebook/model.ts';

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

export const yearsBetween = (from: string, to: string): number => (dayNumber(to) - dayNumber(from)) / YEAR;

/** Whether a follow-up says that repair is due. Openings none anywhere say that it is not; openings alone say neither. */
export const saysDue = ({ repair_due: due, openings }: Followup): boolean | undefined => {
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
