import type { Facts } from '../findings/fact.ts';
import { judge } from './comparisons.ts';
import { type LeafReader, type Trace, trace, verdict } from './evaluate-condition.ts';
import type { Truth } from './kleene.ts';
import type { Rule } from './model.ts';

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
