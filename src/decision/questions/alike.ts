import { gapFacts } from '../../estimates/attributes.ts';
import { type Fact, isSpan } from '../../findings/fact.ts';
import type { Plan } from '../../plans/model.ts';
import { remembered } from '../../quantities/once.ts';
import { judge } from '../../rulebook/comparisons.ts';
import type { LeafReader } from '../../rulebook/kleene.ts';
import type { Rule, Test } from '../../rulebook/model.ts';
import type { Reading } from '../reading.ts';

/** Everything plans and their estimates are made from. */
export function exactKey({ latest, quilt, actions, use, found }: Reading): string {
  const { piecework: _laidOut, ...counted } = quilt;
  const { size, layout, construction, batting, backing, binding, joining, weight, sewn } = latest.quilt;
  const { hung, wanted_years, budget } = latest.client;
  return JSON.stringify([
    counted,
    [size, layout, construction, batting, backing, binding, joining, weight, sewn],
    latest.history,
    [hung, wanted_years, budget, use],
    ['washing_planned', 'direct_light', 'age_years', 'opened'].map((id) => found[`finding.${id}`]),
    actions.map(({ action }) => action),
  ]);
}

/** What plans and the work of carrying them out are made from, counts and shares apart. */
export function workKey({ latest, actions }: Reading): string {
  const { size, layout, construction, batting, backing, joining, sewn } = latest.quilt;
  return JSON.stringify([
    actions.map(({ group, action }) => [group.family, group.state, action]),
    [size, layout, construction, sewn, latest.client.hung],
    [batting?.kind, backing?.kind, joining?.kind],
  ]);
}

/** What, beyond that, the gaps of plans are made from. */
export const gapsKey = ({ latest: { quilt } }: Reading): string =>
  JSON.stringify([quilt.joining?.gap, quilt.joining?.missing, quilt.batting?.rated_gap]);

/** What, beyond that, the cloth that stitches enter, its life, and all that is held against a wish hang on. */
export const clothKey = ({ quilt, latest, use, found }: Reading): string =>
  JSON.stringify([
    [use, latest.client.wanted_years, latest.client.budget, found['finding.deadline_weeks']],
    Object.values(quilt.families).map(({ letter, fragility }) => [letter, fragility]),
  ]);

/**
 * Tests of the quilt, read from where their facts lie: merging what was found with what is planned costs more than all
 * that is asked of either. `worth` is the value over the price, where that is known.
 */
export const leavesOf =
  ({ found, planned }: Pick<Reading, 'found' | 'planned'>, worth?: Fact): LeafReader =>
  ({ subject, key, comparison, operand }) => {
    const fact =
      subject === 'planned' ? planned[key] : key === 'finding.value_over_price' ? worth : found[key];
    return judge(comparison, fact, operand);
  };

/** On which side of each test the facts lie, a mark a test. */
export const sides = (leaves: LeafReader, tests: readonly Test[]): string =>
  tests.map((test) => mark(leaves(test))).join('');

const mark = (truth: boolean | undefined): string => (truth === undefined ? '?' : truth ? '1' : '0');

/** On which side of each test of a gap every plan lies. */
export function gapSides(plans: readonly Pick<Plan, 'batting' | 'gaps'>[], tests: readonly Test[]): string {
  const marks = new Map<string, string>();
  const sidesOf = (plan: Pick<Plan, 'batting' | 'gaps'>): string => {
    const facts = gapFacts(plan);
    return sides(
      ({ comparison, key, operand }) => judge(comparison, facts[key], operand),
      tests.filter((test) => test.key in facts),
    );
  };
  return plans
    .map((plan) => {
      const key = `${told(plan.gaps.after)} ${told(plan.gaps.rated)} ${plan.batting === 'none'}`;
      return remembered(marks, key, () => sidesOf(plan));
    })
    .join(' ');
}

const told = (fact: Fact): string =>
  fact !== undefined && isSpan(fact) ? `${fact.lo}-${fact.hi}` : String(fact);

/** Tests of the quilt, or of plans, in some rules; each once. */
export function testsOf(rules: readonly Rule[], of: 'quilt' | 'plan'): Test[] {
  const tests = rules
    .flatMap((rule) => rule.tests)
    .filter(({ subject }) => (subject === 'plan') === (of === 'plan'));
  const named = tests.map(
    (test) => [JSON.stringify([test.key, test.comparison, test.operand]), test] as const,
  );
  return [...new Map(named).values()];
}

/** A rule's force hangs on the rules it yields to as well. */
export function withThoseYieldedTo(some: readonly Rule[], all: readonly Rule[]): Rule[] {
  const names = new Set(some.flatMap((rule) => [rule.id, ...rule.yieldsTo]));
  const more = all.filter((rule) => names.has(rule.id));
  return more.length === some.length ? more : withThoseYieldedTo(more, all);
}
