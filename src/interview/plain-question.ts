import type { Path } from '../source/source.ts';
import { type Answers, answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { type Flaw, idOf, type Question } from './question.ts';
import { matchChoice, saysNothing } from './typed.ts';

interface Wanted {
  readonly path: Path;
  readonly ask: string;
  readonly label: string;
  readonly choices?: Question['choices'];
  readonly example?: string;
  readonly look?: readonly string[];
  readonly intro?: readonly string[];
  readonly required?: boolean;
  /** The value as a case file would hold it; the words themselves where this is absent. */
  readonly read?: (raw: string) => { readonly value: unknown } | { readonly flaw: Flaw };
}

const inWords = (value: unknown, choices: Question['choices']): string | undefined => {
  if (value === undefined || typeof value === 'object') return undefined;
  if (value === UNKNOWN) return 'not known';
  return choices.find((choice) => choice.value === String(value))?.label ?? String(value).trim();
};

/** A question whose answer stands at one path. "Not known" is written there as such, so that it is not put again. */
export const plainQuestion = (answers: Answers, wanted: Wanted): Question => {
  const { path, choices = [], read = (raw) => ({ value: raw.trim() }), required = false } = wanted;
  const now = inWords(answerAt(answers, path), choices);
  return {
    id: idOf(path),
    ask: wanted.ask,
    label: wanted.label,
    choices,
    ...(wanted.example === undefined ? {} : { example: wanted.example }),
    look: wanted.look ?? [],
    ...(wanted.intro === undefined ? {} : { intro: wanted.intro }),
    required,
    ...(now === undefined ? {} : { now }),
    answered: required
      ? ![undefined, UNKNOWN].includes(answerAt(answers, path) as string | undefined)
      : answerAt(answers, path) !== undefined,
    take: (raw) => {
      if (saysNothing(raw)) {
        if (!required) return { answers: withAnswer(answers, path, UNKNOWN) };
        const what = `${wanted.label} is needed to go on`;
        return {
          flaw: { code: 'missing-key', what, cure: 'A careful guess will do; it can be corrected later.' },
        };
      }
      const chosen = choices.length === 0 ? { value: raw } : matchChoice(raw, choices);
      if ('flaw' in chosen) return chosen;
      const reading = read(chosen.value);
      return 'flaw' in reading ? reading : { answers: withAnswer(answers, path, reading.value) };
    },
  };
};

/** A number where the words are one; anything else is left for the case file's own readers to refuse. */
export const asNumber = (raw: string): { value: unknown } => {
  const text = raw.trim();
  return { value: /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text };
};

/** How many of something: refused on the spot where it is no whole number, so that no later question is stuck on it. */
export const asCount =
  (label: string, least = 0) =>
  (raw: string): { value: unknown } | { flaw: Flaw } => {
    const text = raw.trim().toLowerCase();
    const value = text === 'none' ? 0 : /^\d{1,7}$/.test(text) ? Number(text) : undefined;
    if (value !== undefined && value >= least) return { value };
    const what = `${label} wants a whole number, not "${raw.trim()}"`;
    const cure = `Write it in figures${least > 0 ? `, ${least} or more` : ''}.`;
    return { flaw: { code: 'wrong-kind', what, cure } };
  };

const REFERENCE = /^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u;

/** A reference is letters, digits and dashes, so that no person's name gets into a case. Undefined where it is one. */
export const badReference = (raw: unknown, where: string): Flaw | undefined => {
  const text = String(raw).trim();
  if (REFERENCE.test(text) && text.length <= 80) return undefined;
  return {
    code: 'bad-name',
    what: `"${text}" cannot be the reference for ${where}`,
    cure: 'Use letters, digits and dashes, such as C-014 or helper-a; never a person’s name.',
  };
};

/** Where references of people stand in a case. */
export const REFERENCES = [
  ['client', 'ref'],
  ['survey', 'by'],
] as const;
