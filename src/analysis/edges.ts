import { type Fact, isSpan } from '../findings/fact.ts';
import { comparison, judge } from '../rulebook/comparisons.ts';
import type { Test } from '../rulebook/model.ts';
import { isOrdered, type Subject } from '../rulebook/subjects.ts';
import { numbersIn } from './cells.ts';
import { stepOf } from './steps.ts';

/** A mark on a scale at which a test turns over, and the cases that stand at it on either side. */
export interface Edge {
  readonly test: Test;
  readonly mark: number;
  readonly inside: Set<string>;
  readonly outside: Set<string>;
}

/** The marks of a test: none where it only compares words. */
export function edgesOf(test: Test, subject: Subject): Edge[] {
  if (!isOrdered(subject) || !(comparison(test.comparison).ordered || typeof test.operand === 'number'))
    return [];
  return numbersIn(test.operand)
    .filter((mark) => hasBothSides(test, mark, subject))
    .map((mark) => ({ test, mark, inside: new Set(), outside: new Set() }));
}

/** Beyond the end of a scale nothing can stand: "more than 0 %" has an outside only at the mark itself. */
function hasBothSides(test: Test, mark: number, subject: Subject): boolean {
  const sides = near(mark, subject).map((value) => judge(test.comparison, value, test.operand));
  return sides.includes(true) && sides.includes(false);
}

const EPSILON = 1e-9;

/** The mark and its neighbours a step away, as far as the scale goes. */
function near(mark: number, subject: Subject): number[] {
  const step = stepOf(subject, mark);
  const last = subject.options.length > 0 ? subject.options.length - 1 : Number.POSITIVE_INFINITY;
  const { min = 0, max = last } = subject.range ?? {};
  return [mark - step, mark, mark + step].filter((value) => value >= min - EPSILON && value <= max + EPSILON);
}

/** Notes a case whose fact lies within one step of the mark, on the side where it lies. */
export function noteAt(edge: Edge, subject: Subject, fact: Fact, name: string): void {
  if (typeof fact !== 'number' || isSpan(fact)) return;
  if (Math.abs(fact - edge.mark) > stepOf(subject, edge.mark) + EPSILON) return;
  (judge(edge.test.comparison, fact, edge.test.operand) === true ? edge.inside : edge.outside).add(name);
}
