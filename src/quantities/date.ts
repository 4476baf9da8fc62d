/** The date itself, from `2026-03-05`; undefined where it is written otherwise or the calendar has no such day. */
export const readDate = (text: string): string | undefined => {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return undefined;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days ? text : undefined;
};

const DAY_MS = 86_400_000;

const noon = (date: string): number => Date.parse(`${date}T12:00:00Z`);

/** Days from one date to another; negative where the other is earlier. */
export const daysBetween = (from: string, to: string): number => Math.round((noon(to) - noon(from)) / DAY_MS);

/** The date so many days later. */
export const dateAfter = (date: string, days: number): string =>
  new Date(noon(date) + days * DAY_MS).toISOString().slice(0, 10);
