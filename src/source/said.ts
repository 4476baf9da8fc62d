import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';

/** What a check of our own says of a value; the place follows from where the value stands. */
export type Said = Pick<Problem, 'code'> & {
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
export const say = (context: z.RefinementCtx, said: Said, path: readonly (string | number)[] = []): never => {
  context.addIssue({
    code: 'custom',
    message: said.code,
    path: [...path],
    params: { said },
    continue: false,
  });
  return z.NEVER;
};
