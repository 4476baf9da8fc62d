import type { QuiltCase } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import { agreedOption, doneOption } from '../decision/agreed.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Settled } from '../decision/settled.ts';
import type { Option, Situation } from '../decision/situation.ts';
import { lifeForecaster } from '../estimates/life/forecaster.ts';
import type { Figures } from '../figures/model.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { withFactors } from './changed-figures.ts';
import type { ForecastRange } from './forecast-curve.ts';
import { asUsed, type RepairOutcome, repairOutcome } from './repair-outcome.ts';

/** One repair that was followed up: what was forecast, what became of it, and which figures the forecast hung on. */
export interface LifeEvidence {
  readonly case: string;
  readonly treatment: Option['plan']['treatment'];
  readonly use: Use;
  /** Governing grade as planned, an index into GRADES; undefined where it is not known to the grade. */
  readonly grade: number | undefined;
  readonly forecast: ForecastRange;
  readonly outcome: RepairOutcome;
  /** How much the middle of the forecast moves, in logs, for a move of each figure in logs. */
  readonly exposure: ReadonlyMap<string, number>;
}

/** The plan carried out; before it is, the one agreed on, else the one that comes first. */
export function planDone(held: Settled): Option | undefined {
  const plan = doneOption(held, LAST_DAY) ?? agreedOption(held);
  return plan?.option ?? held.situation.options[held.outcome.best ?? 0];
}

/** Experience looks back: whatever is finished counts. */
const LAST_DAY = '9999-12-31';

/** What follow-ups of one case tell of the life model; undefined where nothing was followed up. */
export const lifeEvidence = (quiltCase: QuiltCase, context: DecisionContext): LifeEvidence | undefined => {
  const outcome = repairOutcome(quiltCase);
  if (outcome === undefined) return undefined;
  const settled = evaluate(asUsed(quiltCase), context);
  const { situation } = settled;
  const done = planDone(settled);
  if (done === undefined) return undefined;
  const { vocabulary, figures } = context.knowledge;
  const forecast = (with_: Figures): ForecastRange =>
    lifeForecaster(contextOf(situation, vocabulary, with_))(done.plan, done.estimates.holes);
  const grade = situation.facts['planned.governing_fragility'];
  return {
    case: quiltCase.case,
    treatment: done.plan.treatment,
    use: situation.use ?? 'guest_bed',
    grade: typeof grade === 'number' ? grade : undefined,
    forecast: forecast(figures),
    outcome,
    exposure: exposures(forecast, figures, situation.use ?? 'guest_bed'),
  };
};

/** Figures of the life model that outcomes can correct. Wear in regular use is 1 by definition. */
export const learnableLife = (figures: Figures): string[] => [
  ...figures.below('life.repair_due').map((grade) => `life.repair_due.${grade}`),
  ...figures
    .below('life.rate')
    .filter((use) => use !== 'regular_bed' && use !== 'infant_sleep')
    .map((use) => `life.rate.${use}`),
  ...figures.below('life.times').map((name) => `life.times.${name}`),
];

const NUDGE = 0.1;

/** By trying: each figure is raised a little, and the forecast made again. */
export const exposures = (
  forecast: (figures: Figures) => ForecastRange,
  figures: Figures,
  use: Use,
): ReadonlyMap<string, number> => {
  const before = forecast(figures).middle;
  const found = new Map<string, number>();
  for (const id of learnableLife(figures)) {
    // Past years of another use hang on its rate too, but faintly; the rate of the use itself is what is seen.
    if (id.startsWith('life.rate.') && id !== `life.rate.${use}`) continue;
    const after = forecast(withFactors(figures, new Map([[id, Math.exp(NUDGE)]]))).middle;
    const moved = before > 0 && after > 0 ? Math.log(after / before) / NUDGE : 0;
    if (Math.abs(moved) > LEAST_MOVE) found.set(id, moved);
  }
  return found;
};

/** Below this a figure has no part in the forecast that an outcome could show. */
const LEAST_MOVE = 0.02;

const WASHINGS = ['none', 'hand', 'machine'] as const;

/** As decision/prepare.ts makes it from the same facts. */
const contextOf = (situation: Situation, vocabulary: Vocabulary, figures: Figures) => {
  const { facts, quiltCase: latest } = situation;
  const washing = facts['finding.washing_planned'];
  const name =
    typeof washing === 'number'
      ? vocabulary.findings.get('washing_planned')?.options[washing]?.value
      : washing;
  const age = facts['finding.age_years'];
  return {
    latest,
    use: situation.use ?? ('guest_bed' as const),
    washing: WASHINGS.find((one) => one === name) ?? ('unknown' as const),
    directLight: facts['finding.direct_light'] === true ? true : undefined,
    ageYears: typeof age === 'number' ? age : undefined,
    gradeOdds: vocabulary.family.get('fragility')?.options.map(({ likelihood }) => likelihood ?? 0),
    figures,
  };
};
