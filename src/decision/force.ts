import { and, not, or, type Truth } from '../rulebook/kleene.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Verdicts } from './verdicts.ts';

/**
 * Which rules are in force after those that yield have yielded: a rule holds when its own condition does and none
 * of the rules it gives way to is in force. An undecided special rule leaves the general one undecided too.
 * `option` undefined asks of the quilt alone.
 */
export class Force {
  readonly #verdicts: Verdicts;
  readonly #byId: ReadonlyMap<string, Rule>;
  readonly #memory = new Map<Rule, Map<number | undefined, Truth>>();

  constructor(rules: readonly Rule[], verdicts: Verdicts) {
    this.#verdicts = verdicts;
    this.#byId = new Map(rules.map((rule) => [rule.id, rule]));
  }

  of(rule: Rule, option: number | undefined): Truth {
    const memory = this.#memory.get(rule) ?? new Map<number | undefined, Truth>();
    this.#memory.set(rule, memory);
    if (!memory.has(option)) memory.set(option, this.#work(rule, option));
    return memory.get(option);
  }

  #work(rule: Rule, option: number | undefined): Truth {
    // A rule about plans says nothing of the quilt alone.
    if (rule.perPlan && option === undefined) return false;
    const own =
      rule.perPlan && option !== undefined ? this.#verdicts.plan(rule, option) : this.#verdicts.quilt(rule);
    if (own === false || rule.yieldsTo.length === 0) return own;
    const others = rule.yieldsTo.map((id) => this.#byId.get(id)).filter((other) => other !== undefined);
    return and([own, not(or(others.map((other) => this.of(other, option))))]);
  }
}
