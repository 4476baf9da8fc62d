import fc from 'fast-check';
import type { Fact, Facts } from '../../src/findings/fact.ts';
import type { ComparisonName, Operand } from '../../src/rulebook/comparisons.ts';
import type { Condition, Rule, Test } from '../../src/rulebook/model.ts';

const PLACE = { file: 'random.yaml', line: 1, column: 1, length: 1, text: '' } as const;

/** What random rules speak of: whole steps as grades and counts have, words, and yes or no. */
export const NUMBER_KEYS = ['finding.steps', 'planned.steps', 'plan.gap'] as const;
export const WORD_KEYS = ['finding.use', 'plan.treatment'] as const;
export const YES_NO_KEYS = ['finding.hung', 'plan.opens'] as const;
const WORDS = ['tie', 'lines', 'leave'] as const;

/** Facts are drawn from the whole steps 0 to 6, so that thresholds are met exactly as often as missed. */
export const step = fc.integer({ min: 0, max: 6 });

export const spanOfSteps = fc
  .tuple(step, step)
  .filter(([a, b]) => a !== b)
  .map(([a, b]) => ({ lo: Math.min(a, b), hi: Math.max(a, b) }));

/** Unknown, known, or known within bounds. */
export const numberFact: fc.Arbitrary<Fact> = fc.oneof(fc.constant(undefined), step, spanOfSteps);
export const wordFact: fc.Arbitrary<Fact> = fc.option(fc.constantFrom(...WORDS), { nil: undefined });
export const yesNoFact: fc.Arbitrary<Fact> = fc.option(fc.boolean(), { nil: undefined });

export const facts: fc.Arbitrary<Facts> = fc.record(
  Object.fromEntries([
    ...NUMBER_KEYS.map((key) => [key, numberFact]),
    ...WORD_KEYS.map((key) => [key, wordFact]),
    ...YES_NO_KEYS.map((key) => [key, yesNoFact]),
  ]) as Record<string, fc.Arbitrary<Fact>>,
);

interface Draft {
  readonly key: string;
  readonly comparison: ComparisonName;
  readonly operand: Operand;
}

const ORDERED = ['at least', 'more than', 'at most', 'less than'] as const;
const WHETHER_KNOWN = ['is known', 'is unknown'] as const;

/** A comparison of whole steps with an operand that suits it. */
export const numberTest: fc.Arbitrary<Omit<Draft, 'key'>> = fc.oneof(
  fc.record({ comparison: fc.constantFrom<ComparisonName>(...ORDERED, 'is', 'is not'), operand: step }),
  fc.record({
    comparison: fc.constant<ComparisonName>('one of'),
    operand: fc.uniqueArray(step, { minLength: 1, maxLength: 4 }),
  }),
  fc.record({
    comparison: fc.constant<ComparisonName>('between'),
    operand: fc.tuple(step, step).map(([a, b]) => [Math.min(a, b), Math.max(a, b)]),
  }),
);

const equality = (values: readonly (string | boolean)[]): fc.Arbitrary<Omit<Draft, 'key'>> =>
  fc.record({
    comparison: fc.constantFrom<ComparisonName>('is', 'is not'),
    operand: fc.constantFrom<Operand>(...values),
  });

const wordTest = fc.oneof(
  equality(WORDS),
  fc.record({
    comparison: fc.constant<ComparisonName>('one of'),
    operand: fc.uniqueArray(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 3 }),
  }),
);

const whetherKnown: fc.Arbitrary<Omit<Draft, 'key'>> = fc.record({
  comparison: fc.constantFrom<ComparisonName>(...WHETHER_KNOWN),
  operand: fc.constant(undefined),
});

const about = (keys: readonly string[], test: fc.Arbitrary<Omit<Draft, 'key'>>): fc.Arbitrary<Draft> =>
  fc.tuple(fc.constantFrom(...keys), test).map(([key, rest]) => ({ key, ...rest }));

const drafts = (askingWhetherKnown: boolean): fc.Arbitrary<Draft> =>
  fc.oneof(
    { weight: 4, arbitrary: about(NUMBER_KEYS, numberTest) },
    { weight: 2, arbitrary: about(WORD_KEYS, wordTest) },
    { weight: 2, arbitrary: about(YES_NO_KEYS, equality([true, false])) },
    ...(askingWhetherKnown
      ? [{ weight: 2, arbitrary: about([...NUMBER_KEYS, ...WORD_KEYS, ...YES_NO_KEYS], whetherKnown) }]
      : []),
  );

type Shape = Draft | { all: Shape[] } | { any: Shape[] } | { not: Shape };

const shapes = (leaf: fc.Arbitrary<Draft>): fc.Arbitrary<Shape> =>
  fc.letrec<{ shape: Shape; group: Shape }>((tie) => ({
    shape: fc.oneof({ maxDepth: 4, withCrossShrink: true }, leaf, tie('group')),
    group: fc.oneof(
      fc.array(tie('shape'), { minLength: 1, maxLength: 4 }).map((all) => ({ all })),
      fc.array(tie('shape'), { minLength: 1, maxLength: 4 }).map((any) => ({ any })),
      tie('shape').map((not) => ({ not })),
    ),
  })).shape;

/** Numbers tests in reading order, as reading a rule file does. */
function grow(shape: Shape, tests: Test[]): Condition {
  if ('all' in shape) return { all: shape.all.map((part) => grow(part, tests)) };
  if ('any' in shape) return { any: shape.any.map((part) => grow(part, tests)) };
  if ('not' in shape) return { not: grow(shape.not, tests) };
  const [subject = 'finding', id = ''] = shape.key.split('.') as [Test['subject'], string];
  const test: Test = { leaf: tests.length, subject, id, place: PLACE, ...shape };
  tests.push(test);
  return { test };
}

function ruleOf(shape: Shape, id: string): Rule {
  const tests: Test[] = [];
  return {
    id,
    group: 'structure',
    title: id,
    when: grow(shape, tests),
    effects: { caution: 'said' },
    because: 'said',
    evidence: 'assumption',
    source: 'drawn at random',
    since: '2026-01-01',
    until: undefined,
    yieldsTo: [],
    was: [],
    perPlan: tests.some(({ subject }) => subject === 'plan'),
    tests,
    place: PLACE,
  };
}

/** Random rules; `askingWhetherKnown` lets them ask "is known" and "is unknown" too. */
export const rules = (askingWhetherKnown: boolean, maxLength = 6): fc.Arbitrary<Rule[]> =>
  fc
    .array(shapes(drafts(askingWhetherKnown)), { minLength: 1, maxLength })
    .map((all) => all.map((shape, index) => ruleOf(shape, `rule-${index}`)));

export const rule = (askingWhetherKnown: boolean): fc.Arbitrary<Rule> =>
  shapes(drafts(askingWhetherKnown)).map((shape) => ruleOf(shape, 'a-rule'));
