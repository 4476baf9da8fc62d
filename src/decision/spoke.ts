import type { Trace, Truth } from '../rulebook/kleene.ts';
import type { Test } from '../rulebook/model.ts';

/** A test that bore on a verdict, and how it came out. */
export interface Spoken {
  readonly test: Test;
  readonly truth: Truth;
}

/**
 * The tests a verdict rests on. For a true rule: every test of an "all", the true ones of an "any". For a false one
 * the mirror of that; "not" turns the question round, so that a finding that is absent can speak too.
 */
export function spokeFor(trace: Trace): Spoken[] {
  if ('test' in trace) return [{ test: trace.test, truth: trace.truth }];
  if ('not' in trace) return spokeFor(trace.not);
  const parts = 'all' in trace ? trace.all : trace.any;
  const bearing = parts.filter((part) => part.truth === trace.truth);
  return bearing.flatMap(spokeFor);
}

/** Tests that leave a trace undecided: what would have to be found out. */
export function leftOpen(trace: Trace): Test[] {
  if (trace.truth !== undefined) return [];
  if ('test' in trace) return [trace.test];
  if ('not' in trace) return leftOpen(trace.not);
  return ('all' in trace ? trace.all : trace.any).flatMap(leftOpen);
}
