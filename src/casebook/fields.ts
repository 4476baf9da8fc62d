import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import { readLength, systemOf } from '../quantities/length.ts';
import { readShare, readWeight } from '../quantities/measure.ts';
import { oneOf, quoted, say, textOf, type ZodMessage } from '../source/quote.ts';
import { suggest } from '../source/suggest.ts';

/** One value in a case file. `read` gives the value as the model holds it, or says what is wrong. */
const field = <T>(wanted: string, read: (raw: unknown) => { value: T } | ZodMessage) =>
  z.unknown().transform((raw, context): T => {
    if (raw === undefined) {
      const what: ZodMessage['what'] = (name, _, inGroup) => `${name} is missing from ${inGroup}`;
      return say(context, { code: 'missing-key', what, cure: `Add the line; it wants ${wanted}.` });
    }
    const result = read(raw);
    return 'value' in result ? result.value : say(context, result);
  });

const wrongKind = (wanted: string): ZodMessage => ({
  code: 'wrong-kind',
  what: (name, value) => `${name} wants ${wanted}, not ${value}`,
  cure: `Write ${wanted}.`,
});

/** Any words on one line; a bare number counts as its own words. */
export const text = () =>
  field('a few words', (raw) => {
    if (typeof raw === 'number') return { value: textOf(raw) };
    return typeof raw === 'string' && raw.trim() !== '' ? { value: raw.trim() } : wrongKind('a few words');
  });

/** One of a fixed list of words. */
export const choice = <const T extends string>(options: readonly T[], unknownToo = true) => {
  const listed = unknownToo ? [...options, 'unknown'] : options;
  return field<T>(oneOf(listed), (raw) => {
    const word = typeof raw === 'string' ? raw.trim() : raw;
    const found = options.find((option) => option === word);
    if (found !== undefined) return { value: found };
    const near = typeof word === 'string' ? suggest(word, options) : undefined;
    return {
      code: 'not-an-option',
      what: (name, value) => `${value} is not one of the choices for ${name}`,
      cure: `Use one of ${listed.join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    };
    // Editors complete from the list.
  }).meta({ enum: [...listed] });
};

/** `yes` or `no`, whichever version of YAML the file was written for. */
export const yesNo = () =>
  field('yes or no', (raw) => {
    if (typeof raw === 'boolean') return { value: raw };
    const word = textOf(raw).trim().toLowerCase();
    if (word === 'yes' || word === 'true') return { value: true };
    if (word === 'no' || word === 'false') return { value: false };
    return {
      code: 'not-an-option',
      what: (name, value) => `${name} is ${value}, but it is a question of yes or no`,
      cure: 'Use one of yes, no, unknown.',
    };
  }).meta({ enum: ['yes', 'no', true, false, 'unknown'] });

interface Bounds {
  readonly min: number;
  readonly max: number;
  /** Bounds as a reader would say them, such as `1 in and 400 in`. */
  readonly said?: string;
}

const within = (value: number, { min, max, said }: Bounds): { value: number } | ZodMessage => {
  if (value >= min && value <= max) return { value };
  return {
    code: 'out-of-range',
    what: (name, shown) => `${name} is ${shown}; it should lie between ${said ?? `${min} and ${max}`}`,
  };
};

/** A plain number, without a unit. */
export const number = (bounds: Bounds) =>
  field('a number', (raw) =>
    typeof raw === 'number' && Number.isFinite(raw) ? within(raw, bounds) : wrongKind('a plain number'),
  );

/** Things that are counted: whole and not negative. */
export const count = (min = 0, max = 1_000_000) =>
  field('a whole number', (raw) => {
    if (typeof raw !== 'number') return wrongKind('a whole number');
    return Number.isInteger(raw)
      ? within(raw, { min, max })
      : { code: 'wrong-kind', what: (name, value) => `${name} is ${value}, but it counts whole things` };
  });

/** Days of work on quilts: anything else is a slip in the year. */
const FIRST_YEAR = 1900;
const LAST_YEAR = 2100;

/** A day, `2026-03-05`. */
export const date = () =>
  field('a date such as 2026-03-05', (raw) => {
    const day = readDate(raw);
    if (day !== undefined) {
      const year = Number(day.slice(0, 4));
      if (year >= FIRST_YEAR && year <= LAST_YEAR) return { value: day };
      return {
        code: 'out-of-range',
        what: (name) => `${name} is ${day}; it should lie between ${FIRST_YEAR} and ${LAST_YEAR}`,
      };
    }
    const shaped = /^\d{4}-\d\d-\d\d$/.test(textOf(raw).trim());
    const why = shaped ? 'is not a day of the calendar' : 'is not a date';
    return { code: 'bad-date', what: (name, value) => `${name}: ${value} ${why}` };
  });

/** A number with a unit. `example` shows how it is written; `unit` is what a bare number most likely meant. */
const measure = (read: (text: string) => number | undefined, kind: string, unit: string, bounds: Bounds) => {
  const cure = `Write number, space, unit, such as 4.5 ${unit}.`;
  return field(`${kind} such as 4.5 ${unit}`, (raw) => {
    const said = typeof raw === 'object' ? quoted(raw) : textOf(raw).trim();
    if (/^-/.test(said)) {
      return { code: 'out-of-range', what: (name) => `${name} is ${said}; ${kind} is never below zero` };
    }
    if (typeof raw === 'number' || /^\d+(\.\d+)?$/.test(said)) {
      return {
        code: 'bad-quantity',
        what: (name) => `${name} is ${said} without a unit`,
        cure,
        didYouMean: `${said} ${unit}`,
      };
    }
    const value = typeof raw === 'string' ? read(raw) : undefined;
    if (value !== undefined) return within(value, bounds);
    return {
      code: 'bad-quantity',
      what: (name, shown) => `${shown} cannot be read as ${kind} for ${name}`,
      cure,
    };
  });
};

/** A calendar day as `YYYY-MM-DD`, or undefined where there is no such day (Gregorian calendar, ISO 8601). */
export const readDate = (raw: unknown): string | undefined => {
  const text = textOf(raw).trim();
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? [];
  if (year === undefined) return undefined;
  const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  // An overflowing day rolls over into the next month, so it does not come back as it went in.
  return Number.isFinite(date.getTime()) && date.toISOString().startsWith(text) ? text : undefined;
};

/** Beyond these a length is a slip of the pen: the largest quilts known are show pieces, not bed covers. */
const SHORTEST = 0.125;
const LONGEST = { max: 400, said: '1/8 in and 400 in' } as const;

/** Inches. Never nothing: a side or a strip. */
export const length = () => measure(readLength, 'a length', 'in', { min: SHORTEST, ...LONGEST });

/** Inches, zero included: a gap or an allowance may be none. */
export const distance = () =>
  measure(readLength, 'a length', 'in', { min: 0, max: 400, said: '0 in and 400 in' });

/** Pounds. */
export const weight = () =>
  measure(readWeight, 'a weight', 'lb', { min: 0.05, max: 100, said: '1 oz and 100 lb' });

/** A fraction of one, from `5 %` or 0.05. */
export const share = () =>
  z.unknown().transform((raw, context): number => {
    const value = typeof raw === 'string' || typeof raw === 'number' ? readShare(raw) : undefined;
    if (value !== undefined && value <= 1) return value;
    if (raw === undefined)
      return say(context, {
        code: 'missing-key',
        what: (name, _, inGroup) => `${name} is missing from ${inGroup}`,
      });
    const bare = typeof raw === 'number' || /^\d+(\.\d+)?$/.test(textOf(raw).trim());
    const said = textOf(raw).trim();
    if (value !== undefined || /^-/.test(said) || (bare && Number(raw) > 100)) {
      return say(context, {
        code: 'out-of-range',
        what: (name) => `${name} is ${said}; a share lies between 0 % and 100 %`,
      });
    }
    if (bare) {
      return say(context, {
        code: 'bad-quantity',
        what: (name) => `${name} is ${said}, which could mean ${said} % or be a slip`,
        cure: 'Write it with the sign, such as 5 %.',
        didYouMean: `${said} %`,
      });
    }
    return say(context, {
      code: 'bad-quantity',
      what: (name, shown) => `${shown} cannot be read as a share for ${name}`,
      cure: 'Write a percentage, such as 5 %.',
    });
  });

const sideBySide = (written: string): { width: number; height: number; mixed: boolean } | undefined => {
  const [left, right, more] = written.split(/\s*[x×]\s*/i);
  if (left === undefined || right === undefined || more !== undefined) return undefined;
  const height = readLength(right);
  // "9 x 9 in": one unit for both is how people write it.
  const unit = /[^\d./\s½¼¾-].*$/.exec(right)?.[0] ?? '';
  const leftToo = readLength(left) === undefined ? `${left} ${unit}` : left;
  const width = readLength(leftToo);
  if (width === undefined || height === undefined) return undefined;
  return { width, height, mixed: systemOf(leftToo) !== systemOf(right) };
};

/** `9 in x 9 in`, width first. */
export const widthByHeight = () =>
  z.unknown().transform((raw, context): { width: number; height: number } => {
    const sides = typeof raw === 'string' ? sideBySide(raw) : undefined;
    if (sides === undefined) {
      return say(context, {
        code: 'bad-quantity',
        what: (name, shown) => `${shown} cannot be read as width x height for ${name}`,
        cure: 'Write both with their unit, width first, such as 9 in x 9 in.',
      });
    }
    const { width, height, mixed } = sides;
    if (mixed) {
      return say(context, {
        code: 'mixed-units',
        what: (name, shown) => `${name} is ${shown}: one side in inches, the other in metres`,
      });
    }
    if (Math.min(width, height) >= SHORTEST && Math.max(width, height) <= LONGEST.max)
      return { width, height };
    return say(context, {
      code: 'out-of-range',
      what: (name, shown) => `${name} is ${shown}; each side should lie between ${LONGEST.said}`,
    });
  });

/** What the vocabulary makes of one line under `findings`. */
export type FindingReading =
  | { readonly value: number | string | boolean }
  | { readonly unknown: true }
  | { readonly problem: Pick<Problem, 'code' | 'what' | 'cure' | 'didYouMean'> };

/** Reads one finding by its id. Handed in by the caller, because the vocabulary lives in a room below this one. */
export type FindingReader = (id: string, raw: unknown) => FindingReading;
