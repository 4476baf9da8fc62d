import type { Problem } from '../problems/problem.ts';

/** What the vocabulary makes of one line under `findings`. */
export type FindingReading =
  | { readonly value: number | string | boolean }
  | { readonly unknown: true }
  | { readonly problem: Pick<Problem, 'code' | 'what' | 'cure' | 'didYouMean'> };

/** Reads one finding by its id. Handed in by the caller, because the vocabulary lives in a room above this one. */
export type FindingReader = (id: string, raw: unknown) => FindingReading;
