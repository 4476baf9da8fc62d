import type { Fact } from '../findings/fact.ts';
import type { Operand } from '../rulebook/comparisons.ts';
import { judge } from '../rulebook/comparisons.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Rule, Test } from '../rulebook/model.ts';
import type { Subject, Subjects } from '../rulebook/subjects.ts';
import { isSpecified } from './plan-kinds.ts';
import { stepOf } from './steps.ts';

/** A set of cells of one subject, as bits. */
export type CellSet = bigint;

/**
 * The values one subject can have, cut where any test of the book cuts them: values within a cell are told apart by
 * no test. Cell 0 is "not known"; each other cell stands for itself with one sample value.
 */
export interface Axis {
  readonly key: string;
  readonly subject: Subject;
  readonly samples: readonly Fact[];
  /** Every cell. */
  readonly all: CellSet;
  /** Every cell but "not known". */
  readonly known: CellSet;
}

/** Where one subject is such, another is such. */
export interface Relation {
  readonly words: string;
  readonly given: { readonly key: string; holds(fact: Fact): boolean };
  readonly follows: { readonly key: string; holds(fact: Fact): boolean };
}

/** One set of cells for each subject named; a subject not named may be anything. */
export type Box = ReadonlyMap<string, CellSet>;

export interface Space {
  readonly axes: ReadonlyMap<string, Axis>;
  readonly relations: readonly Relation[];
}

/** Tests of a rule's condition and of the plans its effects speak of. */
export const testsOf = (rule: Rule): readonly Test[] => [
  ...rule.tests,
  ...[rule.effects.ruleOut, rule.effects.callFor, rule.effects.prefer, rule.effects.avoid].flatMap(
    (target) => (target === undefined || target === 'this plan' ? [] : target),
  ),
];

/** One axis for each subject that any of these rules reads. */
export function axesOf(rules: readonly Rule[], subjects: Subjects): ReadonlyMap<string, Axis> {
  const tests = new Map<string, Test[]>();
  for (const test of rules.flatMap(testsOf)) tests.set(test.key, [...(tests.get(test.key) ?? []), test]);
  return new Map(
    [...tests].flatMap(([key, own]): [string, Axis][] => {
      const [first] = own;
      const subject = first === undefined ? undefined : subjects.find(first.subject, first.id);
      return subject === undefined ? [] : [[key, axisOf(key, subject, own)]];
    }),
  );
}

function axisOf(key: string, subject: Subject, tests: readonly Test[]): Axis {
  const samples: Fact[] = [undefined, ...valuesOf(subject, tests)];
  const cells = (1n << BigInt(samples.length)) - 1n;
  const known = cells & ~1n;
  // A plan's own specification is never unknown.
  return { key, subject, samples, all: subject.kind === 'plan' && isSpecified(key) ? known : cells, known };
}

function valuesOf(subject: Subject, tests: readonly Test[]): Fact[] {
  if (subject.value === 'yes/no') return [true, false];
  if (subject.value === 'choice' || subject.value === 'grade') {
    return subject.options.map(({ value }, index) =>
      subject.ordered || subject.value === 'grade' ? index : value,
    );
  }
  const cuts = [...new Set(tests.flatMap(({ operand }) => numbersIn(operand)))].sort((a, b) => a - b);
  const { min = 0, max = Number.POSITIVE_INFINITY } = subject.range ?? {};
  const step = stepOf(subject, cuts[0] ?? 1);
  const [first, last] = [cuts[0] ?? min, cuts.at(-1) ?? min];
  const whole = subject.value === 'count';
  const between = cuts.flatMap((cut, index): number[] => {
    const next = cuts[index + 1];
    if (next === undefined) return [cut];
    return whole && next - cut <= 1 ? [cut] : [cut, whole ? cut + 1 : (cut + next) / 2];
  });
  return [
    ...(first > min ? [Math.max(min, first - step)] : []),
    ...between,
    ...(last < max ? [Math.min(max, last + step)] : []),
  ];
}

export const numbersIn = (operand: Operand): number[] =>
  (Array.isArray(operand) ? operand : [operand]).filter(
    (value): value is number => typeof value === 'number',
  );

/** The cells on which a test comes out as asked. */
export const cellsWhere = (axis: Axis, test: Test, wanted: (truth: Truth) => boolean): CellSet =>
  axis.all &
  axis.samples.reduce<CellSet>(
    (set, sample, cell) =>
      wanted(judge(test.comparison, sample, test.operand)) ? set | (1n << BigInt(cell)) : set,
    0n,
  );

/** The samples of a set, in their order. */
export const samplesIn = (axis: Axis, set: CellSet): Fact[] =>
  axis.samples.filter((_, cell) => (set & (1n << BigInt(cell))) !== 0n);
