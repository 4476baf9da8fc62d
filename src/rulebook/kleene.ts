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

/** The same of two. */
export const both = (a: Truth, b: Truth): Truth =>
  a === false || b === false ? false : a === undefined || b === undefined ? undefined : true;

export const either = (a: Truth, b: Truth): Truth =>
  a === true || b === true ? true : a === undefined || b === undefined ? undefined : false;

export const not = (truth: Truth): Truth => (truth === undefined ? undefined : !truth);

/** Where each leaf's verdict comes from, made ready once for each test: the facts, or the engine's result. */
export type LeafCompiler<Source> = (test: Test) => (source: Source) => Truth;

/**
 * Makes a condition ready to be folded to its trace, over and over. Every part is visited, so the trace has no holes.
 * It is a chain of functions because walking the condition anew costs as much as judging its leaves.
 */
export function tracer<Source>(condition: Condition, leaf: LeafCompiler<Source>): (source: Source) => Trace {
  if ('test' in condition) {
    const { test } = condition;
    const read = leaf(test);
    return (source) => ({ test, truth: read(source) });
  }
  if ('not' in condition) {
    const inner = tracer(condition.not, leaf);
    return (source) => {
      const part = inner(source);
      return { not: part, truth: not(part.truth) };
    };
  }
  if ('all' in condition) {
    const parts = condition.all.map((part) => tracer(part, leaf));
    return (source) => {
      const all = traceEach(parts, source);
      return { all, truth: fold(all, false) };
    };
  }
  const parts = condition.any.map((part) => tracer(part, leaf));
  return (source) => {
    const any = traceEach(parts, source);
    return { any, truth: fold(any, true) };
  };
}

function traceEach<Source>(parts: readonly ((source: Source) => Trace)[], source: Source): Trace[] {
  return parts.map((part) => part(source));
}

/** `and` and `or` in one pass over traces: the value `settling` settles it, otherwise what is open leaves it open. */
function fold(parts: readonly Trace[], settling: boolean): Truth {
  let truth: Truth = !settling;
  for (const part of parts) {
    if (part.truth === settling) return settling;
    if (part.truth === undefined) truth = undefined;
  }
  return truth;
}

/** The trace of one condition, asked once. */
export const trace = (condition: Condition, read: LeafReader): Trace =>
  tracer<LeafReader>(condition, (test) => (reader) => reader(test))(read);

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
