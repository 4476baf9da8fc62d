import { ProblemError } from '../problems/problem.ts';

/** Makes a writer of dates for a language tag (BCP 47) such as `en-GB`. Throws ProblemError `not-an-option`. */
export function dateWriter(language: string): (date: string) => string {
  try {
    const format = new Intl.DateTimeFormat(language, { dateStyle: 'long', timeZone: 'UTC' });
    return (date) => {
      const time = Date.parse(`${date}T00:00:00Z`);
      return Number.isNaN(time) ? date : format.format(time);
    };
  } catch {
    throw new ProblemError([
      {
        code: 'not-an-option',
        severity: 'error',
        what: `language "${language}" in studio.yaml is not a language tag`,
        why: 'Dates in documents are written in this language.',
        cure: 'Write a tag such as en, en-GB, de or fr-CA.',
      },
    ]);
  }
}

/** The day `days` after a date, both `YYYY-MM-DD`. */
export const daysAfter = (date: string, days: number): string =>
  new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
