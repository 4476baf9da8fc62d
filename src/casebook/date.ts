import { textOf } from '../source/spoken.ts';
/** A calendar day as `YYYY-MM-DD`, or undefined where there is no such day (Gregorian calendar, ISO 8601). */
export const readDate = (raw: unknown): string | undefined => {
  const text = textOf(raw).trim();
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? [];
  if (year === undefined) return undefined;
  const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  // An overflowing day rolls over into the next month, so it does not come back as it went in.
  return Number.isFinite(date.getTime()) && date.toISOString().startsWith(text) ? text : undefined;
};
