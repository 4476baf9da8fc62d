import type { FindingReader, FindingReading } from '../casebook/fields.ts';
import type { Problem } from '../problems/problem.ts';
import { readArea, readLength } from '../quantities/length.ts';
import { formatShare, readShare, readWeight } from '../quantities/measure.ts';
import { memoizeByObject } from '../quantities/memo.ts';
import { oneOf, quoted, textOf } from '../source/quote.ts';
import { suggest } from '../source/suggest.ts';
import type { FindingDef, Kind, Vocabulary } from './vocabulary.ts';

type Reader = (def: FindingDef, raw: unknown) => FindingReading;

const refused = (
  code: Problem['code'],
  what: string,
  cure: string,
  didYouMean?: string | undefined,
): FindingReading => ({ problem: { code, what, cure, ...(didYouMean === undefined ? {} : { didYouMean }) } });

const YES: ReadonlySet<unknown> = new Set([true, 'yes', 'y', 'true', 'on']);
const NO: ReadonlySet<unknown> = new Set([false, 'no', 'n', 'false', 'off']);

const lower = (raw: unknown): unknown => (typeof raw === 'string' ? raw.trim().toLowerCase() : raw);

const yesOrNo: Reader = (def, raw) => {
  const said = lower(raw);
  if (YES.has(said)) return { value: true };
  if (NO.has(said)) return { value: false };
  return refused('wrong-kind', `${def.id} wants yes or no, not ${quoted(raw)}`, 'Write yes, no or unknown.');
};

const plain = (word: string): string => word.toLowerCase().replace(/[\s_-]+/g, ' ');

const option: Reader = (def, raw) => {
  const names = def.options.map(({ value }) => value);
  const word = typeof raw === 'string' ? raw.trim() : undefined;
  const found = word === undefined ? undefined : names.find((name) => plain(name) === plain(word));
  if (found !== undefined) return { value: found };
  const cure = `Write ${oneOf([...names, 'unknown'])}.`;
  const near = word === undefined ? undefined : suggest(word, names);
  return refused('not-an-option', `${quoted(raw)} is not one of the choices for ${def.id}`, cure, near);
};

const shown = (def: FindingDef, value: number): string =>
  def.kind === 'fraction' ? formatShare(value) : `${value}${def.unit === undefined ? '' : ` ${def.unit}`}`;

const inRange = (def: FindingDef, value: number, said: unknown): FindingReading => {
  const { range } = def;
  if (range === undefined || (value >= range.min && value <= range.max)) return { value };
  const bounds = `${shown(def, range.min)} and ${shown(def, range.max)}`;
  return refused(
    'out-of-range',
    `${def.id} is ${textOf(said).trim()}; it lies between ${bounds}`,
    'Correct the figure or its unit.',
  );
};

/** A measure with a unit. Nothing at all needs none: `0` is as clear as `0 in`. */
const measured =
  (read: (text: string) => number | undefined, example: string): Reader =>
  (def, raw) => {
    const value = raw === 0 || raw === '0' ? 0 : typeof raw === 'string' ? read(raw) : undefined;
    if (value !== undefined) return inRange(def, value, raw);
    const bare = typeof raw === 'number' || /^\d+(\.\d+)?$/.test(textOf(raw).trim());
    const what = bare ? `${def.id} is ${raw}, without a unit` : `${quoted(raw)} cannot be read for ${def.id}`;
    const near = bare && def.unit !== undefined ? `${raw} ${def.unit}` : undefined;
    return refused('bad-quantity', what, `Write number, space, unit, such as ${example}.`, near);
  };

const share: Reader = (def, raw) => {
  const value = typeof raw === 'string' || typeof raw === 'number' ? readShare(raw) : undefined;
  if (value !== undefined) return inRange(def, value, raw);
  const text = textOf(raw).trim();
  const bare = /^\d+(\.\d+)?$/.test(text);
  if (/^-/.test(text)) {
    return refused('out-of-range', `${def.id} is ${text}; a share lies between 0 % and 100 %`, 'Correct it.');
  }
  const what = bare ? `${def.id} is ${text}, without %` : `${quoted(raw)} cannot be read for ${def.id}`;
  return refused('bad-quantity', what, 'Write a percentage, such as 5 %.', bare ? `${text} %` : undefined);
};

/** A figure in figures, with or without the word or sign that goes with it; commas may part thousands. */
const figure = (def: FindingDef, raw: unknown): number | undefined => {
  if (typeof raw === 'number') return Number.isFinite(raw) ? raw : undefined;
  if (typeof raw !== 'string') return undefined;
  const words = [def.unit, def.unit?.replace(/s$/, ''), 'year', 'years'].filter((word) => word !== undefined);
  const money =
    def.kind === 'money' ? /^(?:[A-Z]{3}|[$€£])?\s*(-?[\d,]+(?:\.\d+)?)\s*(?:[A-Z]{3}|[$€£])?$/ : undefined;
  const match = money?.exec(raw.trim()) ?? /^(-?[\d,]+(?:\.\d+)?)\s*([a-z ]*)$/.exec(raw.trim());
  const word = match?.[2];
  if (match?.[1] === undefined || (word !== undefined && word !== '' && !words.includes(word)))
    return undefined;
  if (match[1].includes(',') && !/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(match[1])) return undefined;
  return Number(match[1].replaceAll(',', ''));
};

const numeric =
  (example: string, whole = false): Reader =>
  (def, raw) => {
    const value = figure(def, raw);
    if (value === undefined) {
      return refused(
        'wrong-kind',
        `${def.id} wants a number, not ${quoted(raw)}`,
        `Write it like ${example}.`,
      );
    }
    if (whole && !Number.isInteger(value)) {
      return refused(
        'out-of-range',
        `${def.id} is ${value}; it counts whole pieces`,
        'Write a whole number.',
      );
    }
    return inRange(def, value, raw);
  };

const READERS: Readonly<Record<Kind, Reader>> = {
  grade: option,
  choice: option,
  'yes/no': yesOrNo,
  fraction: share,
  count: numeric('3', true),
  number: numeric('12'),
  length: measured(readLength, '4 1/2 in'),
  area: measured(readArea, '12 in2'),
  weight: measured(readWeight, '3.2 lb'),
  money: numeric('1100'),
  years: numeric('10'),
};

/**
 * One answer as a case file or an interview gives it: names for choices and grades, base units for measures.
 * "unknown", "?" and nothing at all are unknown.
 */
export const readAnswer = (def: FindingDef, raw: unknown): FindingReading => {
  const said = lower(raw);
  if (said === null || said === undefined || said === '' || said === 'unknown' || said === '?') {
    return { unknown: true };
  }
  return READERS[def.kind](def, raw);
};

/**
 * Reads what stands under `findings` in a case file: findings that have no place of their own elsewhere in it. One for
 * each vocabulary, because the schema of a case is built for its reader and takes longer to build than a case to read.
 */
export const findingReader = memoizeByObject((vocabulary: Vocabulary): FindingReader => {
  const here = [...vocabulary.findings.values()].filter(({ at }) => at === 'survey.findings');
  const names = here.map(({ id }) => id);
  return (id, raw) => {
    const def = vocabulary.findings.get(id) ?? vocabulary.family.get(id) ?? vocabulary.unit.get(id);
    if (def === undefined) {
      const near = suggest(id, names);
      return {
        problem: {
          code: 'unknown-finding',
          what: `there is no finding ${id}`,
          ...(near === undefined ? {} : { didYouMean: near }),
        },
      };
    }
    if (def.at === 'survey.findings') return readAnswer(def, raw);
    const derived = def.at === 'derived';
    return {
      problem: {
        code: 'unknown-key',
        what: derived ? `${id} is worked out, never typed` : `${id} does not stand under findings`,
        cure: derived ? 'Remove the line.' : `Write it as ${def.at.replace('*', '<letter>')}.`,
      },
    };
  };
});
