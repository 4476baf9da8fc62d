import { judge } from '../rulebook/comparisons.ts';
import { and, not, type Truth } from '../rulebook/kleene.ts';
import type { PlanTarget, Rule } from '../rulebook/model.ts';
import type { Force } from './force.ts';
import type { Option, Situation } from './situation.ts';

/** A rule and how far it speaks here; rules that do not speak are left out. */
export interface Vote {
  readonly rule: Rule;
  readonly truth: true | undefined;
}

/** What the rules say of one plan. */
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
  const removing = rules.filter(
    ({ effects }) => effects.ruleOut !== undefined || effects.callFor !== undefined,
  );
  const preferring = rules.filter(({ effects }) => effects.prefer !== undefined);
  const avoiding = rules.filter(({ effects }) => effects.avoid !== undefined);
  const standing = rules.filter(({ effects }) => effects.stand !== undefined);
  return {
    standings: votes(standing, (rule) => force.of(rule, undefined)),
    plans: situation.options.map((option, index) => {
      const speaks = (rule: Rule, target: PlanTarget | undefined): Truth =>
        target === undefined ? false : and([force.of(rule, index), meets(target, option)]);
      return {
        removals: votes(removing, (rule) => {
          const lacks = rule.effects.callFor === undefined ? false : not(meets(rule.effects.callFor, option));
          return lacks === false ? speaks(rule, rule.effects.ruleOut) : and([force.of(rule, index), lacks]);
        }),
        prefers: votes(preferring, (rule) => speaks(rule, rule.effects.prefer)),
        avoids: votes(avoiding, (rule) => speaks(rule, rule.effects.avoid)),
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
