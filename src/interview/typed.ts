import type { Kind } from '../findings/vocabulary.ts';
import { dateAfter, readDate } from '../quantities/date.ts';
import { readArea, readLength } from '../quantities/length.ts';
import { decimal, type MeasureSystem, readWeight } from '../quantities/measure.ts';
import { oneOf } from '../source/quote.ts';
import { suggest } from '../source/suggest.ts';
import type { Flaw, Question } from './question.ts';

/** One spelling for what is typed: no capitals, no curly quotes, no dots at the end, single blanks. */
const plain = (raw: string): string =>
  raw
    .normalize('NFC')
    .toLowerCase()
    .replace(/[‘’]/g, "'")
    .replace(/[\s_-]+/g, ' ')
    .trim()
    .replace(/[.!]+$/, '');

/** Ways of saying that one does not know. */
const NOTHING: ReadonlySet<string> = new Set([
  '',
  '?',
  'unknown',
  'not known',
  'not sure',
  'unsure',
  'no idea',
  'no clue',
  'dunno',
  "don't know",
  'dont know',
  "i don't know",
  'i dont know',
  'do not know',
  "can't say",
  'cannot say',
  "can't tell",
  'cannot tell',
]);

export const saysNothing = (raw: string): boolean => NOTHING.has(plain(raw));

type Choices = Question['choices'];

const SHORT: Readonly<Record<string, string>> = { y: 'yes', n: 'no' };

/** The choices that what was typed could mean: by number, in full, or by how they begin. Pure. */
const meant = (raw: string, choices: Choices): Choices => {
  const typed = plain(raw);
  if (/^\d+$/.test(raw.trim()))
    return Number(typed) === 0 ? [] : choices.slice(Number(typed) - 1, Number(typed));
  const names = ({ value, label }: Choices[number]) => [plain(value), plain(label)];
  if (/^[^\p{L}]/u.test(raw.trim())) return [];
  const whole = choices.filter((choice) => names(choice).some((name) => name === (SHORT[typed] ?? typed)));
  if (whole.length > 0) return whole;
  return choices.filter((choice) => names(choice).some((name) => name.startsWith(typed)));
};

/**
 * The one choice that was typed. Whatever fits none, or more than one, is asked for again: a slip must never become
 * an answer, and least of all a "no" about safety.
 */
export const matchChoice = (
  raw: string,
  choices: Choices,
): { readonly value: string } | { readonly flaw: Flaw } => {
  const fitting = meant(raw, choices);
  const [only] = fitting;
  if (only !== undefined && fitting.length === 1) return { value: only.value };
  const typed = `"${raw.trim()}"`;
  if (fitting.length > 1) {
    const what = `${typed} could mean ${oneOf(fitting.map(({ label }) => label))}`;
    return { flaw: { code: 'not-an-option', what, cure: 'Type more of it, or its number.' } };
  }
  const near = suggest(
    raw.trim(),
    choices.map(({ value }) => value),
  );
  const first = choices[0]?.label ?? '';
  return {
    flaw: {
      code: 'not-an-option',
      what: `${typed} is none of the choices`,
      cure: `Type the number of one or how it begins, such as 1 for ${first}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  };
};

type Measured = 'length' | 'area' | 'weight';

const READ: Readonly<Record<Measured, (text: string) => number | undefined>> = {
  length: readLength,
  area: readArea,
  weight: readWeight,
};

/** What a bare number means in a studio. */
const UNITS: Readonly<Record<MeasureSystem, Readonly<Record<Measured, string>>>> = {
  inches: { length: 'in', area: 'in2', weight: 'lb' },
  metric: { length: 'cm', area: 'cm2', weight: 'kg' },
};

const isMeasured = (kind: Kind): kind is Measured => Object.hasOwn(READ, kind);

const NONE_OF_IT: ReadonlySet<string> = new Set(['none', 'nothing', 'no', 'zero', '0']);

const PARTS: Readonly<Record<string, string>> = {
  all: '100 %',
  'all of it': '100 %',
  half: '50 %',
  'a half': '50 %',
  'a quarter': '25 %',
  'a third': '33 %',
};

/** A share as people say it: `5`, `1/4`, `half`, `none`. */
const shareAs = (text: string): string => {
  const [, top, bottom] = /^(\d+)\s*[/⁄]\s*([1-9]\d*)$/.exec(text.normalize('NFKC')) ?? [];
  if (top !== undefined && bottom !== undefined)
    return `${decimal((100 * Number(top)) / Number(bottom), 1)} %`;
  // Below one it may be a share already, as case files have it; from one on only a percentage makes sense.
  if (/^\d+(\.\d+)?$/.test(text) && Number(text) >= 1) return `${text} %`;
  return PARTS[text.toLowerCase()] ?? text;
};

/**
 * What was typed for a measure, as a case file writes it: a bare number takes the studio's unit, "none" is nothing of
 * it, "about" falls away. What cannot be read comes back as it is, for the case file's own readers to refuse. Pure.
 */
export const typedMeasure = (kind: Kind, raw: string, system: MeasureSystem = 'inches'): string => {
  const text = raw
    .trim()
    .replace(/^(about|roughly|around|some|ca\.?|~)\s+/i, '')
    .trim();
  const none = NONE_OF_IT.has(text.toLowerCase());
  if (kind === 'fraction') return none ? '0 %' : shareAs(text);
  if (kind === 'count') return none ? '0' : text;
  if (!isMeasured(kind)) return text;
  const unit = UNITS[system][kind];
  if (none) return `0 ${unit}`;
  const read = READ[kind];
  return read(text) === undefined && read(`${text} ${unit}`) !== undefined ? `${text} ${unit}` : text;
};

/** Width by height, `9 x 9` or `9 in by 9 in`, each side with its unit. */
export const typedSides = (raw: string, system?: MeasureSystem): string => {
  const sides = raw.split(/\s*(?:x|×|\bby\b)\s*/i);
  const read = sides.map((side) => typedMeasure('length', side, system));
  const two = read.length === 2 && read.every((side) => readLength(side) !== undefined);
  return two ? read.join(' x ') : raw.trim();
};

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

const two = (figure: number): string => String(figure).padStart(2, '0');

const monthOf = (word: string | undefined): number =>
  MONTHS.indexOf((word ?? '').slice(0, 3).toLowerCase()) + 1;

/** The first such day that has not passed, or the one of the year that was named. */
const dayOf = (day: number, month: number, year: number | undefined, today: string): string | undefined => {
  const first = Number(today.slice(0, 4));
  const dates = (year === undefined ? [first, first + 1] : [year]).flatMap(
    (each) => readDate(`${each}-${two(month)}-${two(day)}`) ?? [],
  );
  return dates.find((date) => date >= today) ?? dates[0];
};

const WORDED = /^(\d{1,2})(?:st|nd|rd|th)?\s*(?:of\s+)?([a-z]{3,9})\.?,?\s*(\d{4})?$/i;
const TURNED = /^([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s*(\d{4})?$/i;

const dayIn = (text: string, today: string): string | undefined => {
  const [, count, span] = /^(?:in\s+)?(\d{1,3})\s*(day|week)s?$/i.exec(text) ?? [];
  if (count !== undefined) return dateAfter(today, Number(count) * (span?.toLowerCase() === 'week' ? 7 : 1));
  const worded = WORDED.exec(text);
  const turned = TURNED.exec(text);
  const [day, word, year] = worded ? worded.slice(1) : turned ? [turned[2], turned[1], turned[3]] : [];
  const month = monthOf(word);
  if (day === undefined || month === 0) return readDate(text);
  return dayOf(Number(day), month, year === undefined ? undefined : Number(year), today);
};

/** A day to come, however it is said: `2026-12-24`, `by 24 December`, `Dec 24, 2026`, `in 6 weeks`. */
export const typedDay = (
  raw: string,
  today: string | undefined,
): { readonly value: string } | { readonly flaw: Flaw } => {
  const text = raw.trim().replace(/^((by|before|on|until|for)\s+)?(the\s+)?/i, '');
  const day = today === undefined ? readDate(text) : dayIn(text, today);
  const cure = 'Write it like 24 December or 2026-12-24, or as in 6 weeks.';
  if (day === undefined)
    return { flaw: { code: 'bad-date', what: `"${raw.trim()}" cannot be read as a day`, cure } };
  if (today === undefined || day >= today) return { value: day };
  return { flaw: { code: 'bad-date', what: `${day} has passed already`, cure } };
};
