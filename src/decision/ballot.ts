import { once } from '../quantities/once.ts';
import { judge } from '../rulebook/comparisons.ts';
import { both, either, not, type Truth } from '../rulebook/kleene.ts';
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
      // Whether the plan is meant is cheap to tell and mostly not so; then nobody need ask whether the rule holds.
      const speaks = (rule: Rule, target: PlanTarget | undefined): Truth => {
        const meant = target === undefined ? false : meets(target, option);
        return meant === false ? false : both(meant, force.of(rule, index));
      };
      const misses = (rule: Rule, called: PlanTarget | undefined): Truth => {
        const has = called === undefined ? true : meets(called, option);
        return has === true ? false : both(not(has), force.of(rule, index));
      };
      const removals = once(() =>
        votes(removing, (rule) =>
          either(speaks(rule, rule.effects.ruleOut), misses(rule, rule.effects.callFor)),
        ),
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
  const cast: Vote[] = [];
  for (const rule of rules) {
    const truth = truthOf(rule);
    if (truth !== false) cast.push({ rule, truth });
  }
  return cast;
}

/** Whether a plan is one of those an effect speaks of. */
function meets(target: PlanTarget, { facts }: Option): Truth {
  if (target === 'this plan') return true;
  let truth: Truth = true;
  for (const { comparison, key, operand } of target) {
    truth = both(truth, judge(comparison, facts[key], operand));
    if (truth === false) return false;
  }
  return truth;
}
