import { type Fact, isSpan } from '../findings/fact.ts';
import { comparison, judge } from '../rulebook/comparisons.ts';
import { evaluateRule } from '../rulebook/evaluate.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Rule, Test } from '../rulebook/model.ts';
import { isOrdered, type Subject, type Subjects } from '../rulebook/subjects.ts';
import { numbersIn } from './cells.ts';
import { stepOf } from './steps.ts';
import { readingsOf, type Study } from './study.ts';

/** Names of cases by how something came out in them. A case with several plans or groups can stand in several. */
export interface Tally {
  readonly true: Set<string>;
  readonly false: Set<string>;
  readonly undecided: Set<string>;
}

interface TestCoverage {
  readonly test: Test;
  readonly cases: Tally;
  readonly edges: readonly Edge[];
}

export interface RuleCoverage {
  readonly rule: Rule;
  readonly cases: Tally;
  /** Every comparison of the condition, in reading order. */
  readonly tests: readonly TestCoverage[];
}

const tally = (): Tally => ({ true: new Set(), false: new Set(), undecided: new Set() });

const note = (cases: Tally, truth: Truth, name: string): void => {
  const side = truth === undefined ? cases.undecided : truth ? cases.true : cases.false;
  side.add(name);
};

/** For every rule and every comparison in it, the cases that made it true, false and undecided, and stood at its marks. */
export function coverage(
  rules: readonly Rule[],
  studies: readonly Study[],
  subjects: Subjects,
): RuleCoverage[] {
  return rules.map((rule) => {
    const covered: RuleCoverage = {
      rule,
      cases: tally(),
      tests: rule.tests.map((test) => {
        const subject = subjects.find(test.subject, test.id);
        return { test, cases: tally(), edges: subject === undefined ? [] : edgesOf(test, subject) };
      }),
    };
    for (const study of studies) coverOne(covered, study, subjects);
    return covered;
  });
}

function coverOne(
  { rule, cases, tests }: RuleCoverage,
  { name, situation }: Study,
  subjects: Subjects,
): void {
  for (const facts of readingsOf(rule, situation)) {
    note(cases, evaluateRule(rule, facts), name);
    for (const { test, cases: own, edges } of tests) {
      const fact = facts[test.key];
      note(own, judge(test.comparison, fact, test.operand), name);
      const subject = subjects.find(test.subject, test.id);
      if (subject !== undefined) for (const edge of edges) noteAt(edge, subject, fact, name);
    }
  }
}

/** What the cases do not reach. */
export interface Unreached {
  /** Rules that no case makes true, or none false. */
  readonly rules: readonly { readonly rule: Rule; readonly never: 'true' | 'false' }[];
  readonly tests: readonly { readonly rule: Rule; readonly test: Test; readonly never: 'true' | 'false' }[];
  readonly edges: readonly {
    readonly rule: Rule;
    readonly edge: Edge;
    readonly never: 'inside' | 'outside';
  }[];
}

const SIDES = ['true', 'false'] as const;

export const unreached = (covered: readonly RuleCoverage[]): Unreached => ({
  rules: covered.flatMap(({ rule, cases }) =>
    SIDES.filter((side) => cases[side].size === 0).map((never) => ({ rule, never })),
  ),
  tests: covered.flatMap(({ rule, tests }) =>
    tests.flatMap(({ test, cases }) =>
      SIDES.filter((side) => cases[side].size === 0).map((never) => ({ rule, test, never })),
    ),
  ),
  edges: covered.flatMap(({ rule, tests }) =>
    tests.flatMap(({ edges }) =>
      edges.flatMap((edge) =>
        (['inside', 'outside'] as const)
          .filter((side) => edge[side].size === 0)
          .map((never) => ({ rule, edge, never })),
      ),
    ),
  ),
});

/** A mark on a scale at which a test turns over, and the cases that stand at it on either side. */
export interface Edge {
  readonly test: Test;
  readonly mark: number;
  readonly inside: Set<string>;
  readonly outside: Set<string>;
}

/** The marks of a test: none where it only compares words. */
function edgesOf(test: Test, subject: Subject): Edge[] {
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
function noteAt(edge: Edge, subject: Subject, fact: Fact, name: string): void {
  if (typeof fact !== 'number' || isSpan(fact)) return;
  if (Math.abs(fact - edge.mark) > stepOf(subject, edge.mark) + EPSILON) return;
  (judge(edge.test.comparison, fact, edge.test.operand) === true ? edge.inside : edge.outside).add(name);
}
