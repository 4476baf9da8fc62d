import type { Facts } from '../findings/fact.ts';
import { judge } from './comparisons.ts';
import { not, type Truth } from './kleene.ts';
import type { Condition, Rule, Test } from './model.ts';

/** Reads leaves straight from the facts: the same meaning as the engine's, for sweeps that need thousands of runs. */
const reader =
  (facts: Facts): LeafReader =>
  (test) =>
    judge(test.comparison, facts[test.key], test.operand);

export const traceRule = (rule: Rule, facts: Facts): Trace => trace(rule.when, reader(facts));

export const evaluateRule = (rule: Rule, facts: Facts): Truth => evaluateCondition(rule.when, reader(facts));

/**
 * The verdict that holds whatever the plan: judged on the quilt's facts, with all that is of the plan left open.
 * Most rules about plans are settled by the quilt before any plan is looked at.
 */
export const evaluateWithoutPlan = (rule: Rule, facts: Facts): Truth =>
  evaluateCondition(rule.when, ({ comparison, key, operand }) => {
    const fact = facts[key];
    return fact === undefined ? undefined : judge(comparison, fact, operand);
  });

/** A condition with its verdict and those of all its parts: what explanations are read from. */
export type Trace =
  | { readonly all: readonly Trace[]; readonly truth: Truth }
  | { readonly any: readonly Trace[]; readonly truth: Truth }
  | { readonly not: Trace; readonly truth: Truth }
  | { readonly test: Test; readonly truth: Truth };

/** Where the verdict of a leaf comes from: the engine's result tree, or the facts themselves. */
export type LeafReader = (test: Test) => Truth;

/** A condition folded to its trace. Every part is visited, so the trace has no holes. */
export function trace(condition: Condition, read: LeafReader): Trace {
  if ('test' in condition) return { test: condition.test, truth: read(condition.test) };
  if ('not' in condition) {
    const part = trace(condition.not, read);
    return { not: part, truth: not(part.truth) };
  }
  if ('all' in condition) {
    const all = condition.all.map((part) => trace(part, read));
    return { all, truth: fold(all, false) };
  }
  const any = condition.any.map((part) => trace(part, read));
  return { any, truth: fold(any, true) };
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

/** The verdict alone, without building a trace: for sweeps over many readings of one quilt. */
export function evaluateCondition(condition: Condition, read: LeafReader): Truth {
  if ('test' in condition) return read(condition.test);
  if ('not' in condition) return not(evaluateCondition(condition.not, read));
  const conjunction = 'all' in condition;
  const settled = !conjunction;
  let open = false;
  for (const part of conjunction ? condition.all : condition.any) {
    const truth = evaluateCondition(part, read);
    if (truth === settled) return settled;
    if (truth === undefined) open = true;
  }
  return open ? undefined : conjunction;
}
