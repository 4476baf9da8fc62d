import type { ProblemCode } from './codes.ts';

/** A place in a text file, counted as editors count: line and column from 1, `length` in characters. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
  /** The whole source line, for the caret under it. */
  readonly text: string;
}

/** Something a user can mend, as plain data; `print.ts` turns it into words. */
export interface Problem {
  readonly code: ProblemCode;
  readonly severity: 'error' | 'warning';
  /** What is wrong, in one sentence, naming the offending value. */
  readonly what: string;
  /** Why it matters to the practitioner; the code's own cause is used where this is absent. */
  readonly why?: string;
  /** How to mend it; the code's own cure is used where this is absent. */
  readonly cure?: string;
  readonly place?: Place;
  /** A near miss: "did you mean …?" */
  readonly didYouMean?: string;
}

/** Carries problems across rooms that cannot go on. Only `cli/` catches it. */
export class ProblemError extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((problem) => problem.what).join('\n'));
    this.name = 'ProblemError';
    this.problems = problems;
  }
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** By file, line and column; what has no place comes first, and equal places keep the order they came in. */
export const byPlace = (a: Problem, b: Problem): number => {
  if (!a.place || !b.place) return Number(a.place !== undefined) - Number(b.place !== undefined);
  return (
    compareText(a.place.file, b.place.file) || a.place.line - b.place.line || a.place.column - b.place.column
  );
};
