import type { Path } from './source.ts';

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
