import type { AnswerEstimates } from '../decision/answer-model.ts';
import { ProblemError } from '../problems/problem.ts';
import type { Range } from '../quantities/range.ts';
import { whole } from '../quantities/rounding.ts';

/** "1 block", "3,200 blocks". */
export const counted = (count: number, singular: string, plural = `${singular}s`): string =>
  `${whole(count)} ${count === 1 ? singular : plural}`;

/** "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "15 to 26", or the one figure where both ends are the same. */
export const between = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);

/** Ends with a full stop, unless it already ends with a sign of its own. */
export const sentence = (text: string): string => (/[.!?]["”’)]?$/.test(text) ? text : `${text}.`);

/** To a quarter of an hour, which is as fine as anybody plans. */
export const quarters = (value: number): string => String(Math.round(value * 4) / 4);

/** Hours from the shortest to the longest, in quarters. */
export const hoursBetween = ({ low, high }: Pick<Range, 'low' | 'high'>): string =>
  between(quarters(low), quarters(high));

type Life = AnswerEstimates['life_years'];

/** Short spans are told in months: nobody plans by tenths of a year. */
const MONTHS_BELOW = 2;

const months = (years: number): number => Math.max(1, Math.round(years * 12));

const one = (years: number): { figure: string; unit: string } =>
  years < MONTHS_BELOW
    ? { figure: String(months(years)), unit: months(years) === 1 ? 'month' : 'months' }
    : { figure: String(Math.round(years)), unit: 'years' };

/** Whether there are any years to tell: where too much is left open, mending is due now. */
export const isForecast = ({ high }: Life): boolean => high > 0;

export const DUE_NOW = 'no time at all: what is open needs mending now';

/** "5 months to 3 years", "2 to 8 years", "more than 50 years". */
export function yearsRange({ low, high, horizon }: Pick<Life, 'low' | 'high' | 'horizon'>): string {
  if (high <= 0) return DUE_NOW;
  if (low >= horizon) return `more than ${horizon} years`;
  const from = low > 0 ? one(low) : { figure: '0', unit: one(high).unit };
  if (high >= horizon) return `${from.figure} ${from.unit} to more than ${horizon} years`;
  const to = one(high);
  return from.unit === to.unit || (from.unit === 'month' && to.unit === 'months')
    ? `${between(from.figure, to.figure)} ${to.unit}`
    : `${from.figure} ${from.unit} to ${to.figure} ${to.unit}`;
}

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

/** Signs that turn the direction of writing, or show nothing: a name may not rearrange the letter it stands in. */
const UNSEEN = /[\u00AD\u200B-\u200F\u202A-\u202E\u2060-\u2069\uFEFF]/g;

/** Line breaks, tabs and other controls become single blanks. */
const tidy = (text: string): string => text.replace(UNSEEN, '').replace(/[\s\p{Cc}]+/gu, ' ');

/** One line of text from a case, whatever was typed. */
export const clean = (text: string): string => tidy(text).trim();

/** Drawings and picture data hold no text of a case. */
const NOT_TEXT = new Set(['svg', 'swatch', 'data', 'plain']);

/** Every text in plain data made clean, so that no part of a document can forget to. */
export function cleaned<Data>(data: Data): Data;
export function cleaned(data: unknown): unknown {
  if (typeof data === 'string') return tidy(data);
  if (Array.isArray(data)) return data.map((each) => cleaned(each));
  if (data === null || typeof data !== 'object') return data;
  return Object.fromEntries(
    Object.entries(data).map(([name, inner]) => [name, NOT_TEXT.has(name) ? inner : cleaned(inner)]),
  );
}

type Holes = AnswerEstimates['holes'];

/** To two figures, as people picture numbers; exact counts stand in the data and on the work order. */
const about = (count: number): string => {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, count))) - 1);
  return whole(Math.round(count / step) * step);
};

/** Nearly all, most or some of a number; the share that is hidden in seams is told in words. */
function hidden({ new_old_face: face, new_old_allowance: seams }: Holes): string {
  const share = seams / (face + seams);
  if (share === 1) return ', all hidden in seams';
  if (share >= 0.9) return ', nearly all hidden in seams';
  if (share >= 0.5) return ', most of them hidden in seams';
  return share > 0.1 ? ', some of them hidden in seams' : '';
}

const PER = 100;

/** Beside the stitches a maker would have put in; nothing where that scale shows nothing. */
function beside(top: number, plain: number): string {
  const each = (PER * top) / plain;
  const added =
    each < 1 ? 'this adds less than one for every hundred' : `this adds ${about(each)} for every hundred`;
  return `A plain hand-quilted quilt of this size has about ${about(plain)} in its top; ${added}.`;
}

/** New holes in old cloth so that a client can picture them: in the top and in the backing, never both in one sum. */
export function holesTold(holes: Holes): readonly string[] {
  const { new_old_face: face, new_old_allowance: seams, new_old_backing: back, reused, most } = holes;
  const top = face + seams;
  return [
    top + back === 0 ? 'None.' : '',
    top === 0 ? '' : `About ${about(top)} in the top${hidden(holes)}.`,
    back === 0 ? '' : `About ${about(back)} in the old backing.`,
    top === 0 || most === null
      ? ''
      : `More of those in the top fall in ${most.where} than anywhere else: about ${about(most.count)}.`,
    reused === 0
      ? ''
      : `About ${about(reused)} old ${Math.round(reused) === 1 ? 'hole is' : 'holes are'} used again.`,
    top === 0 ? '' : beside(top, holes.plain_quilt),
  ].filter((sentence) => sentence !== '');
}
