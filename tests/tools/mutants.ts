import { stepOf } from '../../src/analysis/steps.ts';
import type { Operand } from '../../src/rulebook/comparisons.ts';
import { comparison } from '../../src/rulebook/comparisons.ts';
import type { Condition, Effects, Rule, Test } from '../../src/rulebook/model.ts';
import { isOrdered, type Subject, type Subjects } from '../../src/rulebook/subjects.ts';

/** A rule with one small thing changed, as a slip of the pen might. */
export interface Mutant {
  readonly rule: Rule;
  readonly mutated: Rule;
  readonly kind: 'threshold' | 'condition' | 'effect';
  /** "15 % becomes 16 %", for a sentence. */
  readonly what: string;
  readonly test?: Test;
}

/** Every mutant of a rule: each threshold a step up and down, each condition left out, each effect turned round or lost. */
export const mutantsOf = (rule: Rule, subjects: Subjects): Mutant[] => [
  ...shifted(rule, subjects),
  ...dropped(rule),
  ...turned(rule),
];

function shifted(rule: Rule, subjects: Subjects): Mutant[] {
  return rule.tests.flatMap((test): Mutant[] => {
    const subject = subjects.find(test.subject, test.id);
    if (subject === undefined || !isOrdered(subject) || !readsNumbers(test)) return [];
    const marks = Array.isArray(test.operand) ? test.operand : [test.operand];
    return marks.flatMap((mark: unknown, index): Mutant[] => {
      if (typeof mark !== 'number') return [];
      const step = stepOf(subject, mark);
      return [mark - step, mark + step]
        .filter((value) => isOnScale(value, subject))
        .map((value): Mutant => {
          const operand: Operand = Array.isArray(test.operand)
            ? test.operand.map((each: number | string, place) => (place === index ? value : each))
            : value;
          return {
            rule,
            kind: 'threshold',
            what: `the mark of ${test.id} goes from ${sayMark(mark, subject)} to ${sayMark(value, subject)}`,
            test,
            mutated: withTest(rule, { ...test, operand }),
          };
        });
    });
  });
}

const readsNumbers = ({ comparison: name, operand }: Test): boolean =>
  comparison(name).ordered || typeof operand === 'number';

const isOnScale = (value: number, { range, options }: Subject): boolean => {
  const { min = 0, max = options.length > 0 ? options.length - 1 : Number.POSITIVE_INFINITY } = range ?? {};
  return value >= min && value <= max;
};

const sayMark = (value: number, { value: kind, options }: Subject): string => {
  if (options.length > 0) return options[value]?.value ?? String(value);
  return kind === 'fraction' ? `${Math.round(value * 1000) / 10} %` : String(Math.round(value * 1e4) / 1e4);
};

const withTest = (rule: Rule, test: Test): Rule => ({
  ...rule,
  when: replaced(rule.when, test),
  tests: rule.tests.map((each) => (each.leaf === test.leaf ? test : each)),
});

function replaced(condition: Condition, test: Test): Condition {
  if ('test' in condition) return condition.test.leaf === test.leaf ? { test } : condition;
  if ('not' in condition) return { not: replaced(condition.not, test) };
  if ('all' in condition) return { all: condition.all.map((part) => replaced(part, test)) };
  return { any: condition.any.map((part) => replaced(part, test)) };
}

/** Each part of each group left out in turn; a rule of one condition is then always true. */
function dropped(rule: Rule): Mutant[] {
  return without(rule.when).map(
    ({ rest, part }): Mutant => ({
      rule,
      kind: 'condition',
      what: `a condition on ${[...new Set(testsIn(part).map(({ id }) => id))].join(', ')} is left out`,
      ...(testsIn(part)[0] === undefined ? {} : { test: testsIn(part)[0] as Test }),
      mutated: { ...rule, when: rest, tests: testsIn(rest) },
    }),
  );
}

/** Nothing to ask: true of every quilt. */
const ALWAYS: Condition = { all: [] };

function without(condition: Condition): { rest: Condition; part: Condition }[] {
  if ('test' in condition) return [{ rest: ALWAYS, part: condition }];
  if ('not' in condition) {
    return [
      { rest: ALWAYS, part: condition },
      ...('test' in condition.not
        ? []
        : without(condition.not).map(({ rest, part }) => ({ rest: { not: rest }, part }))),
    ];
  }
  const parts = 'all' in condition ? condition.all : condition.any;
  const group = (of: readonly Condition[]): Condition => ('all' in condition ? { all: of } : { any: of });
  return parts.flatMap((part, index) => {
    const others = parts.filter((_, place) => place !== index);
    const deeper =
      'test' in part
        ? []
        : without(part)
            .filter(({ rest }) => rest !== ALWAYS)
            .map(({ rest, part: inner }) => ({ rest: group(parts.with(index, rest)), part: inner }));
    return [{ rest: others.length === 0 ? ALWAYS : group(others), part }, ...deeper];
  });
}

const testsIn = (condition: Condition): Test[] => {
  if ('test' in condition) return [condition.test];
  if ('not' in condition) return testsIn(condition.not);
  return ('all' in condition ? condition.all : condition.any).flatMap(testsIn);
};

/** How each effect is turned round. Sentences have no other side: they are lost with the whole rule. */
const TURNS: { readonly [E in keyof Effects]?: (effects: Effects) => Effects | undefined } = {
  stand: ({ stand, ...rest }) => ({ ...rest, stand: stand === 'decline' ? 'refer' : 'decline' }),
  ruleOut: ({ ruleOut, ...rest }) =>
    ruleOut === undefined || ruleOut === 'this plan'
      ? { ...rest, prefer: ruleOut ?? 'this plan' }
      : { ...rest, callFor: ruleOut },
  callFor: ({ callFor, ...rest }) => (callFor === undefined ? undefined : { ...rest, ruleOut: callFor }),
  prefer: ({ prefer, ...rest }) => (prefer === undefined ? undefined : { ...rest, avoid: prefer }),
  avoid: ({ avoid, ...rest }) => (avoid === undefined ? undefined : { ...rest, prefer: avoid }),
  action: ({ action, ...rest }) => ({ ...rest, action: action === 'support' ? 'replace' : 'support' }),
};

function turned(rule: Rule): Mutant[] {
  const names = Object.keys(rule.effects) as (keyof Effects)[];
  const turns = names.flatMap((name): Mutant[] => {
    const effects = TURNS[name]?.(rule.effects);
    if (effects === undefined) return [];
    return [{ rule, kind: 'effect', what: `its effect is turned round`, mutated: { ...rule, effects } }];
  });
  const lost: Mutant = {
    rule,
    kind: 'effect',
    what: 'all its effects are lost',
    mutated: { ...rule, effects: {} },
  };
  return [...turns, lost];
}
