import type { Fact, Facts } from '../findings/fact.ts';
import { judge, judgeBy } from './comparisons.ts';
import { type LeafReader, type Trace, type Truth, trace, tracer, verdict } from './kleene.ts';
import type { Rule, Test } from './model.ts';

/** Reads leaves straight from the facts: the same meaning as the engine's, for sweeps that need thousands of runs. */
const reader =
  (facts: Facts): LeafReader =>
  (test) =>
    judge(test.comparison, facts[test.key], test.operand);

export const traceRule = (rule: Rule, facts: Facts): Trace => trace(rule.when, reader(facts));

export const judgeRule = (rule: Rule, facts: Facts): Truth => verdict(rule.when, reader(facts));

/**
 * The verdict that holds whatever the plan: judged on the quilt's facts, with all that is of the plan left open.
 * Most rules about plans are settled by the quilt before any plan is looked at.
 */
export const judgeWhateverThePlan = (rule: Rule, facts: Facts): Truth =>
  verdict(rule.when, ({ comparison, key, operand }) => {
    const fact = facts[key];
    return fact === undefined ? undefined : judge(comparison, fact, operand);
  });

/**
 * Many rules traced over and over, as RulesRun has the engine do: rules are made ready once, and a run looks each fact
 * up once, however many tests ask for it. Looking facts up costs more than comparing them.
 */
export class FastRun {
  readonly #keys: readonly string[];
  readonly #tracers: readonly ((facts: readonly Fact[]) => Trace)[];

  constructor(rules: readonly Rule[]) {
    this.#keys = [...new Set(rules.flatMap((rule) => rule.tests.map(({ key }) => key)))];
    const places = new Map(this.#keys.map((key, index) => [key, index]));
    const leaf = ({ comparison, key, operand }: Test): ((facts: readonly Fact[]) => Truth) => {
      const judgeFact = judgeBy(comparison, operand);
      const place = places.get(key) ?? -1;
      return (facts) => judgeFact(facts[place]);
    };
    this.#tracers = rules.map(({ when }) => tracer(when, leaf));
  }

  /** The trace of every rule on one set of facts, in the order of the rules. */
  run(facts: Facts): readonly Trace[] {
    const looked = this.#keys.map((key) => facts[key]);
    return this.#tracers.map((traced) => traced(looked));
  }
}
