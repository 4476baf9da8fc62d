import type { QuiltCase } from '../../casebook/model.ts';
import type { Treatment } from '../../casebook/scales.ts';
import type { Facts } from '../../findings/fact.ts';
import { judge } from '../../rulebook/comparisons.ts';
import { judgeRule } from '../../rulebook/fast.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rule, Standing, Test } from '../../rulebook/model.ts';
import { weighsPlans } from '../../rulebook/weighs-plans.ts';
import { castVotes } from '../ballot.ts';
import { Force } from '../force.ts';
import { layPlans, situationOf, valueOverPrice } from '../prepare.ts';
import { type Reading, type StudioPractice, takeReading } from '../reading.ts';
import { byGravity, conclude, settle } from '../settle.ts';
import { fastVerdicts, stageRules } from '../verdicts.ts';

/** What a question is about: the answer's standing and treatment. */
export interface Verdict {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}

export const sameVerdict = (a: Verdict, b: Verdict): boolean =>
  a.standing === b.standing && a.treatment === b.treatment;

/** The best plan the rules leave for one reading. */
interface Weighed {
  readonly preferred: Treatment | undefined;
  /** The value of the quilt over the least price, for whatever value a reading has. */
  valueOverPrice(facts: Facts): Facts[string];
}

/**
 * Decides many variants of one case, fast: with the evaluator that a property test holds equal to the engine. Weighing
 * plans is dear and standings are cheap, so the two are apart: variants on the same side of every threshold that a
 * rule about plans has, and alike in what plans are made from, share the weighing.
 */
export class Trials {
  readonly #knowledge: Knowledge;
  readonly #studio: StudioPractice;
  readonly #asOf: string;
  readonly #rules: readonly Rule[];
  readonly #standing: readonly Rule[];
  /** Tests of the quilt in any rule, and in those that weigh plans; each once. */
  readonly #allTests: readonly Test[];
  readonly #planTests: readonly Test[];
  readonly #exact = new Map<string, Weighed>();
  readonly #rough = new Map<string, Weighed>();

  constructor(knowledge: Knowledge, studio: StudioPractice, asOf: string) {
    this.#knowledge = knowledge;
    this.#studio = studio;
    this.#asOf = asOf;
    this.#rules = stageRules(knowledge.rulebook);
    this.#standing = this.#rules.filter((rule) => rule.effects.stand !== undefined);
    this.#allTests = testsOf(this.#rules);
    this.#planTests = testsOf(withThoseYieldedTo(this.#rules.filter(weighsPlans), this.#rules));
  }

  /** Standing and treatment of a variant. */
  answer(variant: QuiltCase): Verdict {
    const reading = takeReading(variant, this.#knowledge, this.#studio);
    return this.#conclude(reading, this.#exact, exactKey(reading));
  }

  /**
   * The same, sharing the weighing also between variants that treat the same groups of units alike and give plans the
   * same gaps: they can differ in ranking alone, by counts. For searching; what is found is tried exactly.
   */
  roughAnswer(variant: QuiltCase): Verdict {
    const reading = takeReading(variant, this.#knowledge, this.#studio);
    return this.#conclude(reading, this.#rough, roughKey(reading));
  }

  /** Which side of every threshold a variant lies on: variants alike in this differ in nothing a quilt rule reads. */
  cell(variant: QuiltCase): string {
    const reading = takeReading(variant, this.#knowledge, this.#studio);
    return `${sides(reading, this.#allTests)}${String(reading.asked['finding.intended_use'])}`;
  }

  #conclude(reading: Reading, memory: Map<string, Weighed>, plansKey: string): Verdict {
    const key = `${sides(reading, this.#planTests)}|${plansKey}`;
    const weighed = memory.get(key) ?? this.#weigh(reading);
    memory.set(key, weighed);
    const facts: Facts = {
      ...reading.found,
      ...reading.planned,
      'finding.value_over_price': weighed.valueOverPrice(reading.found),
    };
    const verdict = (rule: Rule) => judgeRule(rule, facts);
    const force = new Force(this.#rules, { quilt: verdict, plan: verdict, anyPlan: verdict });
    const standing = this.#standing.filter((rule) => force.of(rule, undefined) === true).sort(byGravity);
    const { standing: stands, treatment } = conclude(standing, weighed.preferred);
    return { standing: stands, treatment };
  }

  #weigh(reading: Reading): Weighed {
    const laid = layPlans(reading, this.#knowledge, this.#studio);
    const situation = situationOf(reading, laid, this.#knowledge, this.#asOf);
    const ballot = castVotes(situation, this.#rules, new Force(this.#rules, fastVerdicts(situation)));
    const { best } = settle(situation, ballot);
    return {
      preferred: best === undefined ? undefined : situation.options[best]?.plan.treatment,
      valueOverPrice: (facts) => valueOverPrice(laid.plans, laid.estimates, facts),
    };
  }
}

/** Everything plans and their estimates are made from. */
function exactKey({ latest, quilt, actions, use, found }: Reading): string {
  const { piecework: _laidOut, ...counted } = quilt;
  const { size, layout, construction, batting, backing, binding, joining, weight, sewn } = latest.quilt;
  const { hung, wanted_years, budget } = latest.client;
  return JSON.stringify([
    counted,
    [size, layout, construction, batting, backing, binding, joining, weight, sewn],
    latest.history,
    [hung, wanted_years, budget, use],
    ['washing_planned', 'direct_light', 'age_years'].map((id) => found[`finding.${id}`]),
    actions.map(({ action }) => action),
  ]);
}

/** What plans are made from, counts and shares apart. */
function roughKey({ latest, actions, use }: Reading): string {
  const { size, layout, construction, batting, backing, joining, sewn } = latest.quilt;
  return JSON.stringify([
    actions.map(({ group, action }) => [group.family, group.state, action]),
    [size, layout, construction, sewn, use, latest.client.wanted_years, latest.client.hung],
    [batting?.kind, batting?.rated_gap, backing?.kind, joining?.kind, joining?.gap],
  ]);
}

/** On which side of each test a reading lies, a mark a test. */
function sides({ found, planned }: Reading, tests: readonly Test[]): string {
  const facts = { ...found, ...planned };
  const side = (truth: boolean | undefined): string => (truth === undefined ? '?' : truth ? '1' : '0');
  return tests.map(({ key, comparison, operand }) => side(judge(comparison, facts[key], operand))).join('');
}

/** Tests of the quilt, each once. */
function testsOf(rules: readonly Rule[]): Test[] {
  const tests = rules.flatMap((rule) => rule.tests).filter((test) => test.subject !== 'plan');
  const named = tests.map(
    (test) => [JSON.stringify([test.key, test.comparison, test.operand]), test] as const,
  );
  return [...new Map(named).values()];
}

/** A rule's force hangs on the rules it yields to as well. */
function withThoseYieldedTo(some: readonly Rule[], all: readonly Rule[]): Rule[] {
  const names = new Set(some.flatMap((rule) => [rule.id, ...rule.yieldsTo]));
  const more = all.filter((rule) => names.has(rule.id));
  return more.length === some.length ? more : withThoseYieldedTo(more, all);
}
