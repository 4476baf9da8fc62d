import type { Condition, Test } from './model.ts';

/** True, false, or undecided on what is known so far. */
export type Truth = boolean | undefined;

/** A condition with its verdict and those of all its parts: what explanations are read from. */
export type Trace =
  | { readonly all: readonly Trace[]; readonly truth: Truth }
  | { readonly any: readonly Trace[]; readonly truth: Truth }
  | { readonly not: Trace; readonly truth: Truth }
  | { readonly test: Test; readonly truth: Truth };

/** Where the verdict of a leaf comes from: the engine's result tree, or the facts themselves. */
export type LeafReader = (test: Test) => Truth;

/** Strong Kleene conjunction: one false part settles it, otherwise one undecided part leaves it open. */
export const and = (truths: readonly Truth[]): Truth =>
  truths.includes(false) ? false : truths.includes(undefined) ? undefined : true;

/** Strong Kleene disjunction: one true part settles it. */
export const or = (truths: readonly Truth[]): Truth =>
  truths.includes(true) ? true : truths.includes(undefined) ? undefined : false;

export const not = (truth: Truth): Truth => (truth === undefined ? undefined : !truth);

/** Folds a condition to its trace. Every part is visited, so the trace has no holes. */
export function trace(condition: Condition, read: LeafReader): Trace {
  if ('test' in condition) return { test: condition.test, truth: read(condition.test) };
  if ('not' in condition) {
    const inner = trace(condition.not, read);
    return { not: inner, truth: not(inner.truth) };
  }
  if ('all' in condition) {
    const parts = condition.all.map((part) => trace(part, read));
    return { all: parts, truth: and(parts.map((part) => part.truth)) };
  }
  const parts = condition.any.map((part) => trace(part, read));
  return { any: parts, truth: or(parts.map((part) => part.truth)) };
}

/** The verdict alone, without building a trace: for sweeps over many readings of one quilt. */
export function verdict(condition: Condition, read: LeafReader): Truth {
  if ('test' in condition) return read(condition.test);
  if ('not' in condition) return not(verdict(condition.not, read));
  const conjunction = 'all' in condition;
  const settled = !conjunction;
  let open = false;
  for (const part of conjunction ? condition.all : condition.any) {
    const truth = verdict(part, read);
    if (truth === settled) return settled;
    if (truth === undefined) open = true;
  }
  return open ? undefined : conjunction;
}
