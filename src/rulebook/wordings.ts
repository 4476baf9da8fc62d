import type { EarlierWording } from './model.ts';

/** A rule as it was written before a change. */
export interface Wording {
  readonly raw: unknown;
  /** The day on which the next wording came into force. */
  readonly until: string;
}

/**
 * A rule's earlier wordings, latest first, worked out backwards from how it reads now: each entry of `was` says what
 * stood where, by paths such as `when.all.1.at most`; nothing stood where it says null.
 */
export function wordings(raw: unknown, was: readonly EarlierWording[]): Wording[] {
  let now = raw;
  return [...was].reverse().map(({ until, changed }) => {
    now = Object.entries(changed).reduce((rule, [path, old]) => put(rule, path.split('.'), old), now);
    return { raw: now, until };
  });
}

/** A copy with one value put at a path; null takes what stands there away. */
function put(group: unknown, [name, ...rest]: readonly string[], value: unknown): unknown {
  if (name === undefined) return value;
  if (Array.isArray(group)) {
    return group.map((inner: unknown, index) => (String(index) === name ? put(inner, rest, value) : inner));
  }
  const entries = typeof group === 'object' && group !== null ? Object.entries(group) : [];
  const others = entries.filter(([key]) => key !== name);
  if (rest.length === 0 && value === null) return Object.fromEntries(others);
  const old: unknown = entries.find(([key]) => key === name)?.[1];
  // A key keeps its place.
  return entries.some(([key]) => key === name)
    ? Object.fromEntries(entries.map(([key, inner]) => [key, key === name ? put(inner, rest, value) : inner]))
    : Object.fromEntries([...others, [name, put(old, rest, value)]]);
}
