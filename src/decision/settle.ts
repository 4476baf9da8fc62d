import type { Treatment } from '../findings/scales.ts';
import { judge } from '../rulebook/comparisons.ts';
import { and, not, type Truth } from '../rulebook/kleene.ts';
import type { PlanTarget, Rule, Standing, Test } from '../rulebook/model.ts';
import type { Force } from './force.ts';
import { type Ranked, rank } from './rank.ts';
import type { Situation } from './situation.ts';

/** Gravest first: decline outranks refer, refer outranks not yet, not yet outranks going ahead. */
const STANDINGS: readonly Standing[] = ['decline', 'refer', 'not_yet', 'go_ahead'];

/** What the rules leave of one plan. */
export interface Fate {
  /** Rules that remove it, in stage order; empty where it is left. */
  readonly removedBy: readonly Rule[];
  readonly prefers: readonly Rule[];
  readonly avoids: readonly Rule[];
}

export interface Outcome {
  readonly standing: Standing;
  /** Rules that set the standing, gravest first; empty for going ahead, or when no plan was left. */
  readonly standingRules: readonly Rule[];
  /** True where the answer is decline because the rules left no plan. */
  readonly nothingLeft: boolean;
  readonly fates: readonly Fate[];
  /** Plans left, best first. */
  readonly ranking: readonly Ranked[];
  /** Index of the plan recommended, whatever the standing; undefined when none is left. */
  readonly best: number | undefined;
  /** Null for refer and decline; for not yet, what comes after. */
  readonly treatment: Treatment | null;
}

/** Read an undecided verdict as this: false for the answer itself, true or false when asking what it might become. */
export type ReadUndecided = (rule: Rule) => boolean;

/**
 * From verdicts to an outcome. Every rule of every stage has spoken; each only ever removes plans or weighs those
 * that are left, so no stage brings back what an earlier one removed, and their order in the files is nothing.
 */
export function settle(
  situation: Situation,
  rules: readonly Rule[],
  force: Force,
  readUndecided: ReadUndecided = () => false,
  without?: Rule,
): Outcome {
  const speaking = without === undefined ? rules : rules.filter((rule) => rule !== without);
  const holds = (rule: Rule, option: number | undefined): boolean =>
    decided(force.of(rule, option), rule, readUndecided);
  const standingRules = speaking
    .filter((rule) => rule.effects.stand !== undefined && holds(rule, undefined))
    .sort(
      (a, b) =>
        STANDINGS.indexOf(a.effects.stand ?? 'go_ahead') - STANDINGS.indexOf(b.effects.stand ?? 'go_ahead'),
    );

  const fates = situation.options.map((_, option): Fate => {
    const facts = situation.options[option]?.facts ?? {};
    const met = (target: PlanTarget): Truth =>
      target === 'this plan' ? true : and(target.map((test) => judgeTest(test, facts)));
    const speaks = (rule: Rule, target: PlanTarget | undefined): boolean =>
      target !== undefined && decided(and([force.of(rule, option), met(target)]), rule, readUndecided);
    return {
      removedBy: speaking.filter(
        (rule) =>
          speaks(rule, rule.effects.ruleOut) ||
          (rule.effects.callFor !== undefined &&
            decided(and([force.of(rule, option), not(met(rule.effects.callFor))]), rule, readUndecided)),
      ),
      prefers: speaking.filter((rule) => speaks(rule, rule.effects.prefer)),
      avoids: speaking.filter((rule) => speaks(rule, rule.effects.avoid)),
    };
  });

  const ranking = rank(situation, fates);
  const best = ranking[0]?.option;
  const ruled = standingRules[0]?.effects.stand ?? 'go_ahead';
  const nothingLeft = best === undefined && ruled !== 'decline';
  const standing = nothingLeft ? 'decline' : ruled;
  const offered = standing === 'go_ahead' || standing === 'not_yet';
  return {
    standing,
    standingRules: nothingLeft ? [] : standingRules,
    nothingLeft,
    fates,
    ranking,
    best,
    treatment: offered && best !== undefined ? (situation.options[best]?.plan.treatment ?? null) : null,
  };
}

const judgeTest = (test: Test, facts: Situation['facts']): Truth =>
  judge(test.comparison, facts[test.key], test.operand);

const decided = (truth: Truth, rule: Rule, readUndecided: ReadUndecided): boolean =>
  truth === undefined ? readUndecided(rule) : truth;
