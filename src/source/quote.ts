import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import type { Path } from './source.ts';

/** "a, b or c". */
export const oneOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

/** A value as a message may quote it: short, on one line. */
export const quoted = (value: unknown): string => {
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of lines';
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  const text = String(value).replace(/\s+/g, ' ').trim();
  return `"${text.length > 40 ? `${text.slice(0, 39)}…` : text}"`;
};

/** The text of a single value; nothing for a map or a list, which has none (and which `String` may refuse). */
export const textOf = (value: unknown): string =>
  typeof value === 'object' && value !== null ? '' : String(value);

/** What zod calls a kind, and what a reader does. */
export const KINDS: Readonly<Record<string, string>> = {
  string: 'a word',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  tuple: 'a list',
  object: 'a group of lines',
  record: 'a group of lines',
};

/** What stands at a path of plain data; own names only. */
export const valueAt = (value: unknown, path: Path): unknown => {
  let here = value;
  for (const segment of path) {
    if (here === null || typeof here !== 'object' || !Object.hasOwn(here, segment)) return undefined;
    here = Reflect.get(here, segment);
  }
  return here;
};

/** `survey.families.A`, `history[2].years` as a person would say it. */
export const pathName = (path: Path): string => {
  const name = [...path].reverse().find((segment) => typeof segment === 'string');
  return name === undefined ? 'this file' : String(name);
};

/** The group a path lies in: `size` for `quilt.size.width`. */
export const groupName = (path: Path): string => {
  const names = path.filter((segment) => typeof segment === 'string');
  return names.length < 2 ? 'this file' : String(names.at(-2));
};

/** What a check of our own says of a value; the place follows from where the value stands. */
export type ZodMessage = Pick<Problem, 'code'> & {
  /** A sentence, or one made from the name, the value (already quoted) and the group it is about. */
  readonly what: string | ((name: string, value: string, group: string) => string);
} & Partial<Pick<Problem, 'why' | 'cure' | 'didYouMean' | 'severity'>> & {
    /** Mark the name instead of the value. */
    readonly at?: 'key';
  };

/**
 * Raises a problem of our own from inside a zod check or transform; `zodProblems` gives it its place.
 * Returns `z.NEVER`, so a transform can end with it.
 */
export const say = (
  context: z.RefinementCtx,
  said: ZodMessage,
  path: readonly (string | number)[] = [],
): never => {
  context.addIssue({
    code: 'custom',
    message: said.code,
    path: [...path],
    params: { said },
    continue: false,
  });
  return z.NEVER;
};
