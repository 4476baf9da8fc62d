import type { Path } from '../source/source.ts';
import { type Answers, answerAt, UNKNOWN, withAnswer } from './answers.ts';
import { type Flaw, idOf, type Question } from './question.ts';

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

const NOTHING: ReadonlySet<string> = new Set(['', '?', UNKNOWN, 'not known']);
export const saysNothing = (raw: string): boolean => NOTHING.has(raw.trim().toLowerCase());

/** A question whose answer stands at one path. "Not known" is written there as such, so that it is not put again. */
export const plainQuestion = (answers: Answers, wanted: Wanted): Question => {
  const { path, read = (raw) => ({ value: raw.trim() }), required = false } = wanted;
  return {
    id: idOf(path),
    ask: wanted.ask,
    label: wanted.label,
    choices: wanted.choices ?? [],
    ...(wanted.example === undefined ? {} : { example: wanted.example }),
    look: wanted.look ?? [],
    ...(wanted.intro === undefined ? {} : { intro: wanted.intro }),
    required,
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
      const reading = read(raw);
      return 'flaw' in reading ? reading : { answers: withAnswer(answers, path, reading.value) };
    },
  };
};

/** A number where the words are one; anything else is left for the case file's own readers to refuse. */
export const asNumber = (raw: string): { value: unknown } => {
  const text = raw.trim();
  return { value: /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text };
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
