import type { QuiltCase } from '../casebook/model.ts';
import { GRADES } from '../casebook/scales.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Figures } from '../figures/model.ts';
import { type HiddenDamage, hiddenDamage, hiddenProposal } from './hidden-learned.ts';
import { hoursProposals, type OperationRecord, operationRecords, workedHours } from './hours-learned.ts';
import { type LifeEvidence, lifeEvidence, planDone } from './life-evidence.ts';
import { lifeProposals } from './life-learned.ts';
import { type LifeRecord, lifeRecord } from './life-record.ts';
import type { Proposal } from './proposal.ts';
import { type RuleRecord, ruleRecords } from './rule-record.ts';
import { type Comparison, compareLargest, type SurvivalGroup, survivalBy } from './survival-by.ts';

/** New holes in old cloth, as planned and as counted on the bench. */
export interface HoleRecord {
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
  const { newOldFace, newOldAllowance, newOldBacking } = done.estimates.holes;
  return { case: quiltCase.case, planned: newOldFace + newOldAllowance + newOldBacking, counted };
};
