import type { TextKey } from './slots.ts';

/** Values for the names in braces. */
export type Fillings = Readonly<Record<string, string>>;

/** The practitioner's words, read and checked. */
export interface Texts {
  /** Every paragraph or item of a text, filled. */
  list(key: TextKey, fillings: Fillings): readonly string[];
}

const PLACEHOLDER = /\{([^{}]*)\}/g;

/** The names in braces, with where each begins in the text. */
export const placeholders = (text: string): { readonly name: string; readonly at: number }[] =>
  [...text.matchAll(PLACEHOLDER)].map((match) => ({ name: match[1] ?? '', at: match.index }));

/** One pass: what a name is filled with is never read for names again. */
export const fill = (text: string, fillings: Fillings): string =>
  text.replace(PLACEHOLDER, (whole, name: string) =>
    Object.hasOwn(fillings, name) ? (fillings[name] ?? whole) : whole,
  );

export const textsOf = (byKey: ReadonlyMap<string, readonly string[]>): Texts => ({
  list: (key, fillings) => (byKey.get(key) ?? []).map((text) => fill(text, fillings)),
});
