import type { Facts } from '../findings/fact.ts';
import { evaluateRule, evaluateWithoutPlan, type Trace, traceRule } from '../rulebook/evaluate.ts';
import { and, not, or, type Truth } from '../rulebook/kleene.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import type { Situation } from './situation.ts';

/**
 * Which rules are in force after those that yield have yielded: a rule holds when its own condition does and none
 * of the rules it gives way to is in force. An undecided special rule leaves the general one undecided too.
 * `option` undefined asks of the quilt alone.
 */
export class ActiveRules {
  readonly #truths: RuleTruths;
  readonly #book: Book;
  readonly #once = new Map<Rule, Truth>();
  readonly #each = new Map<Rule, Truth[]>();

  constructor(rules: readonly Rule[], truths: RuleTruths) {
    this.#truths = truths;
    this.#book = bookOf(rules);
  }

  of(rule: Rule, option: number | undefined): Truth {
    if (option === undefined || this.#book.general.has(rule)) {
      if (!this.#once.has(rule)) this.#once.set(rule, this.#work(rule, undefined));
      return this.#once.get(rule);
    }
    const memory = this.#each.get(rule) ?? [];
    this.#each.set(rule, memory);
    if (!(option in memory)) memory[option] = this.#work(rule, option);
    return memory[option];
  }

  /** Rules that no plan makes true: nobody need ask them plan by plan. */
  neverHolds(rule: Rule): boolean {
    return this.#truths.anyPlan(rule) === false;
  }

  #work(rule: Rule, option: number | undefined): Truth {
    // A rule about plans says nothing of the quilt alone.
    if (rule.perPlan && option === undefined) return false;
    const own =
      rule.perPlan && option !== undefined ? this.#truths.plan(rule, option) : this.#truths.quilt(rule);
    if (own === false || rule.yieldsTo.length === 0) return own;
    const others = rule.yieldsTo.map((id) => this.#book.byId.get(id)).filter((other) => other !== undefined);
    return and([own, not(or(others.map((other) => this.of(other, option))))]);
  }
}

interface Book {
  readonly byId: ReadonlyMap<string, Rule>;
  /** Rules whose force is the same for every plan. */
  readonly general: ReadonlySet<Rule>;
}

const bookOf = (rules: readonly Rule[]): Book => {
  const byId = new Map(rules.map((rule) => [rule.id, rule]));
  const readsPlans = (rule: Rule): boolean =>
    rule.perPlan || rule.yieldsTo.some((id) => byId.get(id)?.perPlan === true);
  return { byId, general: new Set(rules.filter((rule) => !readsPlans(rule))) };
};

/** How every rule of the stages came out: once for the quilt, or once for each plan. */
export interface RuleTruths {
  quilt(rule: Rule): Truth;
  plan(rule: Rule, option: number): Truth;
  /** What holds whatever the plan; undefined where it depends on the plan. */
  anyPlan(rule: Rule): Truth;
}

export const stageRules = ({ rules }: Rulebook): Rule[] => rules.filter((rule) => rule.group !== 'units');

/** What a rule reads: those that refuse a use look at what was asked, all others at what is left to serve. */
const factsFor = (rule: Rule, situation: Situation, option: number | undefined): Facts => {
  if (rule.effects.refuseUse !== undefined) return situation.asked;
  const plan = rule.perPlan && option !== undefined ? situation.options[option] : undefined;
  return plan?.facts ?? situation.facts;
};

/** A verdict with those of all its parts: what explanations are read from. */
export const traceOf = (rule: Rule, situation: Situation, option: number | undefined): Trace =>
  traceRule(rule, factsFor(rule, situation, option));

/** Verdicts on one situation, each worked out when first asked for. */
export function evaluateRules(situation: Situation): RuleTruths {
  const once = new Map<Rule, Truth>();
  const whatever = new Map<Rule, Truth>();
  const remember = (memory: Map<Rule, Truth>, rule: Rule, work: () => Truth): Truth => {
    if (!memory.has(rule)) memory.set(rule, work());
    return memory.get(rule);
  };
  const quilt = (rule: Rule): Truth =>
    remember(once, rule, () => evaluateRule(rule, factsFor(rule, situation, undefined)));
  const anyPlan = (rule: Rule): Truth =>
    rule.perPlan ? remember(whatever, rule, () => evaluateWithoutPlan(rule, situation.facts)) : quilt(rule);
  return {
    quilt,
    anyPlan,
    plan: (rule, index) => {
      const option = situation.options[index];
      return (
        anyPlan(rule) ??
        (option === undefined || !rule.perPlan ? undefined : evaluateRule(rule, option.facts))
      );
    },
  };
}
