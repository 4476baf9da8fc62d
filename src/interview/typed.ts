import { oneOf } from '../source/spoken.ts';
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
