import { ActiveRules } from '../../decision/precedence.ts';
import type { Fact, Facts } from '../../findings/fact.ts';
import { judge } from '../../rulebook/comparisons.ts';
import { evaluateRule } from '../../rulebook/evaluate.ts';
import { and, not, type Truth } from '../../rulebook/kleene.ts';
import { type PlanTarget, type Rule, STAGES } from '../../rulebook/model.ts';
import type { Axis } from '../cells.ts';
import { isEstimated, isSpecified, PLAN_KINDS, type PlanKind } from '../plan-kinds.ts';
import { type Check, type Diagnostic, type RulebookModel, sayFact } from '../rulebook-model.ts';

/** How many combinations of findings are tried. Enough that a pair of rules true once in a hundred quilts meets dozens of times. */
const TRIED = 600;

/** One quilt drawn from the cells, and what the rules make of every plan there is on it. */
interface Drawn {
  readonly facts: Facts;
  readonly left: readonly PlanKind[];
  /** As few of the removing rules as leave no plan between them; empty where plans are left. */
  readonly removers: readonly Rule[];
  readonly standing: boolean;
  readonly undecidedBetween: readonly string[];
}

/**
 * Findings for which no plan is left and no standing says why, and findings on which no rule weighs one treatment
 * against another, so that holes and price alone decide. A bounded search: quilts are drawn from the cells, each
 * finding as likely as the vocabulary says, and every plan specification there is is judged on them.
 */
export const gaps: Check = (examined) => {
  const weighing = examined.rules.filter(({ group, effects }) => group !== 'units' && weighs(effects));
  // What only a standing reads stays unknown, so that no standing explains by chance what the other rules leave.
  const onPlans = weighing.filter(({ effects }) => effects.stand === undefined);
  const axes = [...examined.space.axes.values()].filter(
    ({ key, subject }) =>
      subject.kind !== 'plan' &&
      !isSpecified(key) &&
      onPlans.some(({ tests }) => tests.some((test) => test.key === key)),
  );
  const draw = seeded(20261125);
  const drawn: Drawn[] = [];
  for (let tried = 0; tried < TRIED; tried += 1) {
    const kinds = PLAN_KINDS[Math.floor(draw() * PLAN_KINDS.length)] ?? [];
    drawn.push(outcomeOf(drawFacts(axes, kinds, examined, draw), kinds, weighing));
  }
  const cells = axes.reduce((product, { samples }) => product * (samples.length - 1), PLAN_KINDS.length);
  const estimated = new Set(
    weighing.flatMap(({ tests }) =>
      tests.filter((test) => isEstimated(test) && test.subject === 'plan').map(({ id }) => id),
    ),
  );
  return {
    remarks: [...nothingLeft(drawn, examined), ...rankingAlone(drawn, examined)],
    notCovered: [
      `Gaps were sought in ${drawn.length} quilts drawn from about ${cells.toExponential(0)} combinations of findings; what only a standing reads was left unknown.`,
      ...(estimated.size === 0
        ? []
        : [
            `In that search rules that wait for a plan's own figures said nothing: ${[...estimated].sort().join(', ')}.`,
          ]),
    ],
  };
};

const weighs = ({ stand, ruleOut, callFor, prefer, avoid }: Rule['effects']): boolean =>
  [stand, ruleOut, callFor, prefer, avoid].some((effect) => effect !== undefined);

function drawFacts(
  axes: readonly Axis[],
  kinds: readonly PlanKind[],
  { rules, vocabulary, space }: RulebookModel,
  draw: () => number,
): Facts {
  const layers = kinds[0]?.facts ?? {};
  const facts: Record<string, Fact> = {
    'finding.batting_kind': layers['finding.batting_kind'],
    'finding.backing_kind': layers['finding.backing_kind'],
  };
  for (const axis of axes) {
    const likely =
      axis.subject.kind === 'finding' ? vocabulary.findings.get(axis.subject.id)?.likely : undefined;
    facts[axis.key] = axis.samples[drawCell(axis, likely ?? [], draw)];
  }
  if (rules.some(({ effects }) => effects.refuseUse === facts['finding.intended_use'])) {
    // A refused use is evaluated as storage.
    facts['finding.intended_use'] = 'storage';
  }
  for (const { given, follows } of space.relations) {
    const result = space.axes.get(follows.key);
    if (!(follows.key in facts) || !given.holds(facts[given.key]) || follows.holds(facts[follows.key]))
      continue;
    facts[follows.key] = result?.samples.find((sample) => follows.holds(sample));
  }
  return facts;
}

/** Yes/no and choices as likely as the vocabulary says; figures and whatever is derived evenly over the cells, which the tests cut. */
function drawCell(
  axis: Axis,
  likely: readonly { readonly value: Fact; readonly weight: number }[],
  draw: () => number,
): number {
  const at = draw();
  let sum = 0;
  if (likely.length > 0 && likely.every(({ value }) => axis.samples.includes(value))) {
    for (const { value, weight } of likely) {
      sum += weight;
      if (at < sum) return axis.samples.indexOf(value);
    }
  }
  return 1 + Math.floor(at * (axis.samples.length - 1));
}

function outcomeOf(facts: Facts, kinds: readonly PlanKind[], rules: readonly Rule[]): Drawn {
  const options = kinds.map((kind): Facts => ({ ...facts, ...kind.facts }));
  const active = new ActiveRules(rules, {
    quilt: (rule) => evaluateRule(rule, facts),
    plan: (rule, option) => evaluateRule(rule, options[option] ?? facts),
    anyPlan: () => undefined,
  });
  const met = (target: PlanTarget, option: number): Truth =>
    target === 'this plan'
      ? true
      : and(target.map((test) => judge(test.comparison, options[option]?.[test.key], test.operand)));
  const removedBy: Rule[][] = [];
  const left = kinds.filter((_, option) => {
    const removing = rules.filter(
      (rule) =>
        (rule.effects.ruleOut !== undefined &&
          and([active.of(rule, option), met(rule.effects.ruleOut, option)]) === true) ||
        (rule.effects.callFor !== undefined &&
          and([active.of(rule, option), not(met(rule.effects.callFor, option))]) === true),
    );
    removedBy.push(removing);
    return removing.length === 0;
  });
  const weight = (kind: PlanKind): number[] => {
    const option = kinds.indexOf(kind);
    const counts = (rule: Rule): number =>
      (rule.effects.prefer !== undefined &&
      and([active.of(rule, option), met(rule.effects.prefer, option)]) === true
        ? 1
        : 0) -
      (rule.effects.avoid !== undefined &&
      and([active.of(rule, option), met(rule.effects.avoid, option)]) === true
        ? 1
        : 0);
    return STAGES.map((stage) =>
      rules.filter(({ group }) => group === stage).reduce((sum, rule) => sum + counts(rule), 0),
    );
  };
  const keys = left.map((kind) => ({ kind, key: weight(kind) }));
  const best = keys.reduce<readonly number[] | undefined>(
    (top, { key }) => (top === undefined || isHigher(key, top) ? key : top),
    undefined,
  );
  const tied = keys.filter(({ key }) => best !== undefined && !isHigher(best, key));
  return {
    facts,
    left,
    removers: left.length > 0 ? [] : fewest(removedBy),
    standing: rules.some(
      (rule) =>
        ['decline', 'refer'].includes(rule.effects.stand ?? '') && active.of(rule, undefined) === true,
    ),
    undecidedBetween: [...new Set(tied.map(({ kind }) => String(kind.facts['plan.treatment'])))],
  };
}

/** Leaves out, one after the other, rules without which every plan is still removed. */
function fewest(removedBy: readonly (readonly Rule[])[]): Rule[] {
  const all = [...new Set(removedBy.flat())];
  return all.reduce<Rule[]>((kept, rule) => {
    const fewer = kept.filter((other) => other !== rule);
    return removedBy.every((rules) => rules.some((each) => fewer.includes(each))) ? fewer : kept;
  }, all);
}

const isHigher = (a: readonly number[], b: readonly number[]): boolean => {
  const step = a.findIndex((value, index) => value !== b[index]);
  return step >= 0 && (a[step] ?? 0) > (b[step] ?? 0);
};

/** One remark for each set of rules that leaves nothing, the most frequent first. */
function nothingLeft(drawn: readonly Drawn[], examined: RulebookModel): Diagnostic[] {
  const empty = drawn.filter(({ left, standing }) => left.length === 0 && !standing);
  return grouped(empty, ({ removers }) => removers.map(({ id }) => id).join()).map(([first, count]) => ({
    code: 'no-plan-left',
    severity: 'warning' as const,
    what: `In ${count} of ${drawn.length} quilts drawn no plan is left and no standing says why: ${first.removers.map(({ id }) => id).join(', ')}`,
    rules: first.removers,
    example: sayDrawn(first, examined),
  }));
}

function rankingAlone(drawn: readonly Drawn[], examined: RulebookModel): Diagnostic[] {
  const open = drawn.filter(({ undecidedBetween, standing }) => !standing && undecidedBetween.length > 1);
  return grouped(open, ({ undecidedBetween }) => undecidedBetween.join()).map(([first, count]) => ({
    code: 'ranking-alone',
    severity: 'note' as const,
    what: `In ${count} of ${drawn.length} quilts drawn no rule weighs between ${first.undecidedBetween.join(', ')}: years wanted, holes and price decide`,
    rules: [],
    example: sayDrawn(first, examined),
  }));
}

function grouped(drawn: readonly Drawn[], name: (each: Drawn) => string): [Drawn, number][] {
  const groups = new Map<string, [Drawn, number]>();
  for (const each of drawn) {
    const [first, count] = groups.get(name(each)) ?? [each, 0];
    groups.set(name(each), [first, count + 1]);
  }
  return [...groups.values()].sort((a, b) => b[1] - a[1]);
}

const sayDrawn = ({ facts, removers }: Drawn, { space }: RulebookModel): string[] =>
  Object.entries(facts).flatMap(([key, fact]) => {
    const subject = space.axes.get(key)?.subject;
    const bears =
      removers.length === 0 || removers.some(({ tests }) => tests.some((test) => test.key === key));
    return subject !== undefined && bears ? [sayFact(subject, fact)] : [];
  });

/** Numbers from 0 up to 1 that look random and are the same every time: a 32-bit multiply-and-shift generator. */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
