import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { memoizeByPair } from '../quantities/memo.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Outcome } from './outcome.ts';
import { decidingStep, firstOf, type PlanOutcome, type Step } from './ranking.ts';
import type { Situation } from './situation.ts';

/** A rule and the plan whose figures its sentence is filled from. */
export interface Cited {
  readonly rule: Rule;
  readonly option: number;
}

/** The best there is of one treatment, and what became of it. */
export interface Alternative {
  readonly treatment: Treatment;
  readonly option: number;
  readonly planOutcome: PlanOutcome;
  readonly outcome: 'recommended' | 'possible' | 'ruled_out' | 'not_offered';
  /** Why it is not the recommendation: rules that removed it, or those by which it ranks lower; the first two count. */
  readonly reasons: readonly Cited[];
  /** Where it ranks lower: on what. */
  readonly step: Step | undefined;
}

/** More than two rules against a treatment nobody keeps in mind. */
const MOST_SHOWN = 2;

/** What is shown against a treatment. */
export const shownAgainst = ({ reasons }: Alternative): readonly Cited[] => reasons.slice(0, MOST_SHOWN);

/** One alternative for each treatment, in the order of the table; found once, and asked for by all who speak of them. */
export const alternatives = memoizeByPair(
  (situation: Situation, outcome: Outcome): readonly Alternative[] => {
    const recommended = outcome.treatment === null ? undefined : outcome.best;
    return TREATMENTS.flatMap((treatment): Alternative[] => {
      const option = bestOf(treatment, situation, outcome);
      const planOutcome = option === undefined ? undefined : outcome.planOutcomes[option];
      if (option === undefined || planOutcome === undefined) return [];
      const as = (how: Alternative['outcome'], reasons: readonly Cited[], step?: Step): Alternative[] => [
        { treatment, option, planOutcome, outcome: how, reasons, step },
      ];
      if (option === recommended) return as('recommended', []);
      if (planOutcome.removedBy.length > 0) return as('ruled_out', citing(planOutcome.removedBy, option));
      if (recommended === undefined) return as('not_offered', citing(outcome.standingRules, option));
      const step = decidingStep(situation, outcome.planOutcomes, recommended, option);
      return as('possible', atStep(step, outcome.planOutcomes, recommended, option), step);
    });
  },
);

/** The plan ranked first; else the one fewest rules remove, and of these the one removed latest: what comes nearest. */
function bestOf(treatment: Treatment, situation: Situation, outcome: Outcome): number | undefined {
  const ofTreatment = (option: number): boolean => situation.options[option]?.plan.treatment === treatment;
  const left = firstOf(situation, outcome.planOutcomes, ofTreatment);
  if (left !== undefined) return left;
  return situation.options
    .map((_, option) => option)
    .filter(ofTreatment)
    .sort(
      (a, b) =>
        (outcome.planOutcomes[a]?.removedBy.length ?? 0) - (outcome.planOutcomes[b]?.removedBy.length ?? 0) ||
        a - b,
    )[0];
}

const citing = (rules: readonly Rule[], option: number): Cited[] => rules.map((rule) => ({ rule, option }));

/** The rules that made the difference on a stage: what this plan is avoided for, then what the recommendation is preferred for. */
function atStep(step: Step, planOutcomes: readonly PlanOutcome[], better: number, worse: number): Cited[] {
  const mine = planOutcomes[better];
  const theirs = planOutcomes[worse];
  const lost = (theirs?.avoids ?? []).filter(
    (rule) => rule.group === step && mine?.avoids.includes(rule) !== true,
  );
  const gained = (mine?.prefers ?? []).filter(
    (rule) => rule.group === step && theirs?.prefers.includes(rule) !== true,
  );
  return [...citing(lost, worse), ...citing(gained, better)];
}
