import type { Place } from '../../problems/problem.ts';
import type { Condition, Effects, PlanTarget, Rule, Test } from '../model.ts';
import type { KeptPlace } from './places.ts';

type Kept<T extends { readonly place: Place }> = Omit<T, 'place'> & { readonly place: KeptPlace };
type KeptTest = Kept<Test>;
/** A leaf is the number of a test of its rule. */
type KeptCondition =
  | number
  | { readonly all: readonly KeptCondition[] }
  | { readonly any: readonly KeptCondition[] }
  | { readonly not: KeptCondition };
type KeptTarget = 'this plan' | readonly KeptTest[];

/** A rule as JSON can hold it. */
export type KeptRule = Omit<Rule, 'place' | 'yieldsAt' | 'earlier' | 'tests' | 'when' | 'effects'> & {
  readonly place: KeptPlace;
  readonly yieldsAt?: readonly KeptPlace[];
  readonly earlier?: readonly KeptRule[];
  readonly tests: readonly KeptTest[];
  readonly when: KeptCondition;
  readonly effects: Readonly<Record<string, string | KeptTarget>>;
};

/** Effects that speak of plans, and so hold tests of their own. */
const TARGETS = ['ruleOut', 'callFor', 'prefer', 'avoid'] as const;

export function keepRule(rule: Rule, keep: (place: Place) => KeptPlace): KeptRule {
  const keepTest = (test: Test): KeptTest => ({ ...test, place: keep(test.place) });
  const keepTarget = (target: PlanTarget): KeptTarget =>
    target === 'this plan' ? target : target.map(keepTest);
  const effects: Record<string, string | KeptTarget> = { ...withoutTargets(rule.effects) };
  for (const name of TARGETS) {
    const target = rule.effects[name];
    if (target !== undefined) effects[name] = keepTarget(target);
  }
  const { yieldsAt, earlier, ...rest } = rule;
  return {
    ...rest,
    ...(yieldsAt && { yieldsAt: yieldsAt.map(keep) }),
    ...(earlier && { earlier: earlier.map((each) => keepRule(each, keep)) }),
    place: keep(rule.place),
    tests: rule.tests.map(keepTest),
    when: keepCondition(rule.when),
    effects,
  };
}

export function findRule(kept: KeptRule, find: (place: KeptPlace) => Place): Rule {
  const findTest = (test: KeptTest): Test => ({ ...test, place: find(test.place) });
  const tests = kept.tests.map(findTest);
  const effects: Record<string, unknown> = { ...kept.effects };
  for (const name of TARGETS) {
    const target = kept.effects[name];
    if (Array.isArray(target)) effects[name] = target.map(findTest);
  }
  const { yieldsAt, earlier, ...rest } = kept;
  return {
    ...rest,
    ...(yieldsAt && { yieldsAt: yieldsAt.map(find) }),
    ...(earlier && { earlier: earlier.map((each) => findRule(each, find)) }),
    // JSON drops what is not there.
    until: kept.until,
    place: find(kept.place),
    tests,
    when: findCondition(kept.when, tests),
    // The keys and their kinds are those keepRule took from a rule.
    effects: effects as Effects,
  };
}

const withoutTargets = (effects: Effects): Readonly<Record<string, string>> => {
  const { ruleOut: _1, callFor: _2, prefer: _3, avoid: _4, ...rest } = effects;
  return rest;
};

function keepCondition(condition: Condition): KeptCondition {
  if ('all' in condition) return { all: condition.all.map(keepCondition) };
  if ('any' in condition) return { any: condition.any.map(keepCondition) };
  if ('not' in condition) return { not: keepCondition(condition.not) };
  return condition.test.leaf;
}

function findCondition(kept: KeptCondition, tests: readonly Test[]): Condition {
  if (typeof kept === 'number') {
    const test = tests[kept];
    if (test === undefined) throw new Error(`the rule kept has no test ${kept}`);
    return { test };
  }
  if ('all' in kept) return { all: kept.all.map((part) => findCondition(part, tests)) };
  if ('any' in kept) return { any: kept.any.map((part) => findCondition(part, tests)) };
  return { not: findCondition(kept.not, tests) };
}
