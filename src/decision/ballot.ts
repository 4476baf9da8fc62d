import { once } from '../quantities/once.ts';
import { judge } from '../rulebook/comparisons.ts';
import { and, not, or, type Truth } from '../rulebook/kleene.ts';
import type { PlanTarget, Rule } from '../rulebook/model.ts';
import type { Force } from './force.ts';
import type { Option, Situation } from './situation.ts';

/** A rule and how far it speaks here; rules that do not speak are left out. */
export interface Vote {
  readonly rule: Rule;
  readonly truth: true | undefined;
}

/** What the rules say of one plan; asked when somebody counts, because most plans are removed and then nobody asks the rest. */
export interface PlanVotes {
  readonly removals: readonly Vote[];
  readonly prefers: readonly Vote[];
  readonly avoids: readonly Vote[];
}

/** What all rules say, in stage order: worked out once, then counted as often as a question asks for. */
export interface Ballot {
  readonly standings: readonly Vote[];
  readonly plans: readonly PlanVotes[];
}

export function castVotes(situation: Situation, rules: readonly Rule[], force: Force): Ballot {
  const speaking = rules.filter((rule) => !force.isSilent(rule));
  const removing = speaking.filter(
    ({ effects }) => effects.ruleOut !== undefined || effects.callFor !== undefined,
  );
  const preferring = speaking.filter(({ effects }) => effects.prefer !== undefined);
  const avoiding = speaking.filter(({ effects }) => effects.avoid !== undefined);
  const standing = speaking.filter(({ effects }) => effects.stand !== undefined);
  return {
    standings: votes(standing, (rule) => force.of(rule, undefined)),
    plans: situation.options.map((option, index) => {
      const speaks = (rule: Rule, target: PlanTarget | undefined): Truth =>
        target === undefined ? false : and([force.of(rule, index), meets(target, option)]);
      const removals = once(() =>
        votes(removing, (rule) => {
          const { callFor, ruleOut } = rule.effects;
          const lacks = callFor === undefined ? false : not(meets(callFor, option));
          return or([speaks(rule, ruleOut), and([force.of(rule, index), lacks])]);
        }),
      );
      const prefers = once(() => votes(preferring, (rule) => speaks(rule, rule.effects.prefer)));
      const avoids = once(() => votes(avoiding, (rule) => speaks(rule, rule.effects.avoid)));
      return {
        get removals() {
          return removals();
        },
        get prefers() {
          return prefers();
        },
        get avoids() {
          return avoids();
        },
      };
    }),
  };
}

function votes(rules: readonly Rule[], truthOf: (rule: Rule) => Truth): Vote[] {
  return rules.flatMap((rule): Vote[] => {
    const truth = truthOf(rule);
    return truth === false ? [] : [{ rule, truth }];
  });
}

/** Whether a plan is one of those an effect speaks of. */
const meets = (target: PlanTarget, { facts }: Option): Truth =>
  target === 'this plan'
    ? true
    : and(target.map((test) => judge(test.comparison, facts[test.key], test.operand)));
