import type { QuiltCase } from '../casebook/model.ts';
import { GRADES } from '../casebook/scales.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Figures } from '../figures/model.ts';
import { linearPosterior } from '../statistics/linear-posterior.ts';
import {
  type HiddenDamage,
  hiddenDamage,
  hiddenProposal,
  hoursProposals,
  type OperationRecord,
  operationRecords,
  workedHours,
} from './hours-learned.ts';
import {
  forecastCurve,
  type LifeEvidence,
  type LifeRecord,
  learnableLife,
  lifeEvidence,
  lifeRecord,
  outcomeLogLikelihood,
  planDone,
} from './life-evidence.ts';
import { type Proposal, proposalOf } from './proposal.ts';
import { type RuleRecord, ruleRecords } from './rule-record.ts';
import { type Comparison, compareLargest, type SurvivalGroup, survivalBy } from './survival-by.ts';

/** New holes in old cloth, as planned and as counted on the bench. */
interface HoleRecord {
  readonly case: string;
  readonly planned: number;
  readonly counted: number;
}

/** Everything a studio's outcomes say: of its estimates, its figures and its rules. */
export interface Learned {
  readonly cases: number;
  readonly completed: number;
  readonly evidence: readonly LifeEvidence[];
  readonly hours: readonly OperationRecord[];
  readonly holes: readonly HoleRecord[];
  readonly hidden: readonly HiddenDamage[];
  readonly life: LifeRecord;
  readonly byTreatment: readonly SurvivalGroup[];
  readonly byGrade: readonly SurvivalGroup[];
  readonly treatmentsCompared: Comparison | undefined;
  readonly gradesCompared: Comparison | undefined;
  readonly proposals: readonly Proposal[];
  readonly rules: readonly RuleRecord[];
}

/** `prior` are the figures with everything learned earlier taken back: forecasts are judged and corrected from there. */
export const learn = (cases: readonly QuiltCase[], context: DecisionContext, prior: Figures): Learned => {
  const shipped: DecisionContext = { ...context, knowledge: { ...context.knowledge, figures: prior } };
  const figures = { prior, now: context.knowledge.figures };
  const evidence = cases.flatMap((one) => lifeEvidence(one, shipped) ?? []);
  const worked = cases.flatMap((one) => workedHours(one, shipped));
  const hidden = cases.flatMap((one) => hiddenDamage(one) ?? []);
  const byTreatment = survivalBy(evidence, ({ treatment }) => treatment);
  const byGrade = survivalBy(evidence, ({ grade }) => (grade === undefined ? undefined : GRADES[grade]));
  const small = prior.number('experience.small_group');
  return {
    cases: cases.length,
    completed: cases.filter(({ completed }) => completed !== undefined).length,
    evidence,
    hours: operationRecords(worked),
    holes: cases.flatMap((one) => holeRecord(one, shipped) ?? []),
    hidden,
    life: lifeRecord(evidence),
    byTreatment,
    byGrade,
    treatmentsCompared: compareLargest(byTreatment, small),
    gradesCompared: compareLargest(byGrade, small),
    proposals: [
      ...lifeProposals(evidence, figures),
      ...hoursProposals(worked, figures),
      ...hiddenProposal(hidden, figures),
    ],
    rules: ruleRecords(cases, evidence, context),
  };
};

const holeRecord = (quiltCase: QuiltCase, context: DecisionContext): HoleRecord | undefined => {
  const counted = quiltCase.completed?.holes;
  if (counted === undefined) return undefined;
  const done = planDone(evaluate(quiltCase, context));
  if (done === undefined) return undefined;
  const { newOldFace, newOldAllowance, newOldBacking } = done.estimator.holes();
  return { case: quiltCase.case, planned: newOldFace + newOldAllowance + newOldBacking, counted };
};

/** Posterior of the logarithms of factors on the life model's figures. */
export interface LifeLearned {
  readonly figures: readonly string[];
  readonly effectiveSize: number;
  /** Draws of log factors in the order of `figures`, with weights that add up to 1. */
  readonly draws: readonly { readonly coefficients: readonly number[]; readonly weight: number }[];
  quantile(figure: string, share: number): number;
}

/** Weighed like this, evidence needs no more than forecast, outcome and exposure. */
export type Weighable = Pick<LifeEvidence, 'forecast' | 'outcome' | 'exposure'>;

/** What is known of how far a figure may be off: lives of cloth and thread, rates of use, and factors on them. */
const kindOf = (id: string): 'repair_due' | 'rate' | 'times' => {
  if (id.startsWith('life.rate.')) return 'rate';
  return id.startsWith('life.times.') || id.startsWith('life.held.') ? 'times' : 'repair_due';
};

/**
 * The life model's figures after outcomes, by Bayes. Each figure is its shipped value times e^θ, θ normal about 0 with
 * the spread `experience.unsure` gives its kind. A quilt's years to repair follow its forecast, stretched by
 * e^(Σ exposure × θ): exact for what touches the whole quilt (use, washing, light, spacing), of first order for what
 * touches a part. An outcome is an interval between two follow-ups, or "not yet". Quilts whose forecast lies beyond
 * the horizon tell nothing. Importance posterior (statistics/linear-posterior.ts).
 */
export const learnLife = (evidence: readonly Weighable[], figures: Figures, draws = 2000): LifeLearned => {
  const ids = learnableLife(figures).filter((id) => evidence.some(({ exposure }) => exposure.has(id)));
  const data = evidence.flatMap(({ forecast, outcome, exposure }) => {
    const curve = forecastCurve(forecast);
    if (curve === undefined) return [];
    return [
      {
        weights: ids.map((id) => exposure.get(id) ?? 0),
        logLikelihood: outcomeLogLikelihood(curve, outcome.wholeAt, outcome.dueAt),
      },
    ];
  });
  const posterior = linearPosterior(
    data,
    ids.map((id) => figures.number(`experience.unsure.${kindOf(id)}`)),
    draws,
  );
  return {
    figures: ids,
    effectiveSize: posterior.effectiveSize,
    draws: posterior.draws,
    quantile: (id, share) => (ids.includes(id) ? posterior.quantile(ids.indexOf(id), share) : 0),
  };
};

/** A quilt bears on a figure where its forecast moves at least this much of the figure's own move. */
const BEARS = 0.1;

/** What to change in the life model's figures; none where fewer cases bear on a figure than the studio asks for. */
const lifeProposals = (
  evidence: readonly LifeEvidence[],
  figures: { readonly prior: Figures; readonly now: Figures },
): Proposal[] => {
  if (evidence.length === 0) return [];
  const learned = learnLife(evidence, figures.prior);
  const least = figures.now.number('experience.least_cases');
  return learned.figures.flatMap((id) => {
    const n = evidence.filter(
      ({ exposure, forecast }) =>
        Math.abs(exposure.get(id) ?? 0) >= BEARS && forecastCurve(forecast) !== undefined,
    ).length;
    if (n < least) return [];
    const at = (share: number): number => learned.quantile(id, share);
    return [
      proposalOf(
        id,
        figures,
        { middle: at(0.5), low: at(0.1), high: at(0.9) },
        { n, effectiveSize: learned.effectiveSize },
      ),
    ];
  });
};
