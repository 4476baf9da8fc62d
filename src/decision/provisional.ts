import type { QuiltCase } from '../casebook/model.ts';
import { foundFacts } from '../findings/as-found.ts';
import type { Facts } from '../findings/fact.ts';
import { latestLook } from '../findings/latest-look.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import { evaluateRule } from '../rulebook/evaluate.ts';
import type { Rule } from '../rulebook/model.ts';
import { sameRecommendation } from './answer-model.ts';
import type { DecisionContext } from './context.ts';
import { isGraver, type Outcome, settle } from './outcome.ts';
import { ActiveRules, stageRules } from './precedence.ts';
import type { Situation } from './situation.ts';
import type { Ballot, PlanVotes, Vote } from './votes.ts';

/** Rules that what is not known leaves undecided, for the quilt or for some plan. */
export const undecidedRules = ({ standings, plans }: Ballot): Rule[] =>
  undecidedIn([standings, ...plans.flatMap(({ removals, prefers, avoids }) => [removals, prefers, avoids])]);

const undecidedIn = (lists: readonly (readonly Vote[])[]): Rule[] => [
  ...new Set(lists.flatMap((votes) => votes.filter(isUndecided).map(({ rule }) => rule))),
];

const isUndecided = ({ truth }: Vote): boolean => truth === undefined;

/**
 * Undecided rules that would change standing or treatment if they came out true, one at a time; and all of them
 * where only together they would. Each is tried on the outcome itself.
 */
export function rulesThatCouldChange(situation: Situation, ballot: Ballot, outcome: Outcome): Rule[] {
  const bearing = bearingRules(ballot, outcome);
  const alone = bearing.filter((rule) => changes(situation, ballot, outcome, new Set([rule])));
  if (alone.length === 1 || bearing.length < 2) return alone;
  if (alone.length === 0)
    return changes(situation, ballot, outcome, new Set(bearing)) ? undecidedRules(ballot) : [];
  // In the order of the ballot, which asks all rules of all plans; the search above spares most of them that.
  return undecidedRules(ballot).filter((rule) => alone.includes(rule));
}

/** Whether there is any such rule: the search ends at the first. */
export function isOpen(situation: Situation, ballot: Ballot, outcome: Outcome): boolean {
  const bearing = bearingRules(ballot, outcome);
  return (
    bearing.some((rule) => changes(situation, ballot, outcome, new Set([rule]))) ||
    (bearing.length > 1 && changes(situation, ballot, outcome, new Set(bearing)))
  );
}

/**
 * Undecided rules that could bear on the outcome at all: that may set a graver standing, or speak of a plan that is
 * left. Coming out true, a rule only ever removes plans, weighs those that are left, or makes the standing graver: of
 * a plan removed already it has nothing more to say, and a decline it leaves a decline.
 */
function bearingRules({ standings, plans }: Ballot, outcome: Outcome): Rule[] {
  if (outcome.standing === 'decline') return [];
  // Where no treatment is offered, it is nothing which plan would come first.
  const weighs = outcome.treatment !== null;
  return undecidedIn([
    standings.filter(({ rule }) => wouldBeGraver(rule, outcome)),
    ...left(plans, outcome).flatMap(([, votes]) =>
      weighs ? [votes.removals, votes.prefers, votes.avoids] : [votes.removals],
    ),
  ]);
}

const wouldBeGraver = ({ effects }: Rule, { standing }: Outcome): boolean =>
  effects.stand !== undefined && isGraver(effects.stand, standing);

/** Whether the verdict would be another if these undecided rules came out true. */
function changes(situation: Situation, ballot: Ballot, outcome: Outcome, rules: ReadonlySet<Rule>): boolean {
  if (ballot.standings.some(({ rule }) => rules.has(rule) && wouldBeGraver(rule, outcome))) return true;
  if (!couldMoveTheFirst(ballot, outcome, rules)) return false;
  return !sameRecommendation(
    outcome,
    settle(situation, ballot, (rule) => rules.has(rule)),
  );
}

/**
 * The plan that comes first stays first unless one of the rules removes it or speaks against it, or speaks for another.
 * Settling again, which asks and ranks all plans, is for what is left.
 */
function couldMoveTheFirst({ plans }: Ballot, outcome: Outcome, rules: ReadonlySet<Rule>): boolean {
  const speaks = (votes: readonly Vote[]): boolean =>
    votes.some((vote) => isUndecided(vote) && rules.has(vote.rule));
  const { best } = outcome;
  const first = best === undefined ? undefined : plans[best];
  if (first === undefined) return false;
  if (speaks(first.removals)) return true;
  if (outcome.treatment === null) return false;
  if (speaks(first.avoids)) return true;
  return left(plans, outcome).some(([index, { prefers }]) => index !== best && speaks(prefers));
}

const left = (plans: readonly PlanVotes[], { planOutcomes }: Outcome): (readonly [number, PlanVotes])[] =>
  plans.flatMap((votes, index) =>
    planOutcomes[index]?.removedBy.length === 0 ? [[index, votes] as const] : [],
  );

/** A decline stands on what is true; everything short of it may still fall to what is not known. Photographs never make it firm. */
export function isProvisional({ facts }: Situation, outcome: Outcome, open: readonly Rule[]): boolean {
  const firm = outcome.standing === 'decline' && !outcome.nothingLeft;
  const fromPhotos =
    facts['finding.seen'] === 'photos' && (outcome.standing === 'go_ahead' || outcome.standing === 'not_yet');
  return fromPhotos || (!firm && open.length > 0);
}

/** The same without naming the rules: the search for them ends at the first. */
export const provisionalOn = (situation: Situation, ballot: Ballot, outcome: Outcome): boolean =>
  isProvisional(situation, outcome, []) || isOpen(situation, ballot, outcome);

/**
 * Rules that decline on what is known already, whatever else is still found: fast enough to ask after every answer,
 * because no plan is made. `sized` says whether the case's size was told or only stands in. Facts of a plan or of the
 * quilt as planned are left unknown, so what needs them is never certain here.
 */
export const certainDeclines = (
  quiltCase: QuiltCase,
  { knowledge, practice }: DecisionContext,
  sized: boolean,
): readonly Rule[] => {
  const { vocabulary, figures, rulebook } = knowledge;
  const look = latestLook(quiltCase);
  const found: Facts = {
    ...foundFacts(look, surveyQuilt(look, figures), vocabulary, figures),
    'finding.washing_practice': practice.washing,
    ...(sized ? {} : { 'finding.area': undefined }),
  };
  const refused = rulebook.rules.some(
    ({ effects, ...rule }) =>
      effects.refuseUse !== undefined && evaluateRule({ effects, ...rule }, found) === true,
  );
  // A refused use is set aside before anything else is judged; what would hold without it is for the whole decision.
  const facts: Facts = refused ? { ...found, 'finding.intended_use': undefined } : found;
  const rules = stageRules(rulebook);
  const quilt = (rule: Rule) => evaluateRule(rule, facts);
  const active = new ActiveRules(rules, { quilt, plan: quilt, anyPlan: quilt });
  return rules.filter(
    (rule) => rule.effects.stand === 'decline' && !rule.perPlan && active.of(rule, undefined) === true,
  );
};
