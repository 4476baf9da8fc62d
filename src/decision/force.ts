import { oncePer } from '../quantities/once.ts';
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
  readonly #book: Book;
  readonly #once = new Map<Rule, Truth>();
  readonly #each = new Map<Rule, Truth[]>();

  constructor(rules: readonly Rule[], verdicts: Verdicts) {
    this.#verdicts = verdicts;
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
  isSilent(rule: Rule): boolean {
    return this.#verdicts.anyPlan(rule) === false;
  }

  #work(rule: Rule, option: number | undefined): Truth {
    // A rule about plans says nothing of the quilt alone.
    if (rule.perPlan && option === undefined) return false;
    const own =
      rule.perPlan && option !== undefined ? this.#verdicts.plan(rule, option) : this.#verdicts.quilt(rule);
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

/** The same rules are put to thousands of readings of one quilt. */
const bookOf = oncePer((rules: readonly Rule[]): Book => {
  const byId = new Map(rules.map((rule) => [rule.id, rule]));
  const readsPlans = (rule: Rule): boolean =>
    rule.perPlan || rule.yieldsTo.some((id) => byId.get(id)?.perPlan === true);
  return { byId, general: new Set(rules.filter((rule) => !readsPlans(rule))) };
});
