import { z } from 'zod';

/** An empty line and the word "unknown" both say that nobody knows: the same as not saying anything. */
const isBlank = (value: unknown): boolean =>
  value === null || (typeof value === 'string' && value.trim().toLowerCase() === 'unknown');

const withoutBlanks =
  (names: readonly string[]) =>
  (value: unknown): unknown => {
    if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
    // Only names known here: a misspelt one must still be reported, whatever it holds.
    return Object.fromEntries(
      Object.entries(value).filter(([name, inner]) => !(names.includes(name) && isBlank(inner))),
    );
  };

/** A group of named lines in a case file: no other names, and what is blank or unknown counts as absent. */
export const group = <S extends z.ZodRawShape>(shape: S) =>
  z.preprocess(withoutBlanks(Object.keys(shape)), z.strictObject(shape));
