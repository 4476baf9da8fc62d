import type { QuiltCase } from '../../casebook/model.ts';
import type { Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { Plan } from '../../plans/model.ts';
import { memoize, memoizeByKey, memoizeByObject } from '../../quantities/memo.ts';
import type { HoleEstimate, LifeEstimate } from '../model.ts';
import { evidenceOf } from './fabrics.ts';
import { mostDamaged, type Outlook, outlookOf, wearCurve } from './forecast.ts';
import { FORECAST_NOTE, type Pace, type PlannedQuilt, type QuiltEvidence } from './model.ts';
import { carePace, gapPace, type LifeContext, pastWear, together } from './pace.ts';
import { clothAssumptions, plannedQuilt } from './planned.ts';
import { type LifePrior, lifePrior } from './prior.ts';
import { blurred, type WearCurve, yearsUntil } from './years.ts';

/**
 * How many years until the next repair is due. No published study calibrates the life of a repaired quilt: what follows
 * joins the trade's judgement (figures.yaml, `life`) to what was seen, and its arithmetic alone is checked.
 *
 * One quilt, one clock. Wear is measured in wear-years, one year of regular bed use. A few latent numbers are shared by
 * the whole quilt, so that its parts depend on one another: the wear so far A, the Weibull shape k, how much longer (on
 * the log scale) than its grades say its cloth lasts, s_c, and its thread, s_t. Each kind of cloth has a share e of its
 * own; a grade not known is one of several. The trade can judge r, the further wear in which a further 5 % gives way;
 * so the hazard from now, after t, of a part of life r = m·e^(s + e), m by its grade, is
 *
 *     h(t; r) = L·((1 + t/A)^k − 1) ÷ ((1 + r/A)^k − 1),   L = −ln 0.95,
 *
 * and the hazard it has passed is L ÷ ((1 + r/A)^k − 1) (hazard.ts). Seams give way by thread or by cloth, as these
 * compete (terms.ts). What was found damaged weighs the latents (evidence.ts, posterior.ts); they are summed over fixed
 * nodes (weighing.ts), never sampled. A repair is due when the damage of the whole quilt (damage.ts) passes a mark
 * (due.ts), what was left open counting from the first day (forecast.ts). Wear becomes years by the pace of the intended
 * use (pace.ts, years.ts).
 */
export function lifeForecaster(context: ForecastContext): (plan: Plan, holes: HoleEstimate) => LifeEstimate {
  const { latest, figures, washing, directLight, ageYears, gradeOdds } = context;
  const refused = context.use === 'infant_sleep';
  const use: Use = refused ? 'storage' : context.use;
  const past = pastWear({ history: latest.history, ageYears }, figures);
  const care = carePace({ use, washing, directLight }, figures);
  const rate = figures.figure(`life.rate.${use}`);
  const model = modelOf(figures);
  const told = memoizeByObject((quilt: SurveyedQuilt) => evidenceOf(quilt, past.value, gradeOdds));
  return (plan, { perforation }) => {
    const { order, evidence } = told(plan.quilt);
    const gap = gapPace(plan, use, figures);
    const planned = plannedQuilt(plan, perforation, { use, quilt: latest.quilt, order, figures });
    const alternatives = together(care.value, gap.value);
    const years = model.forecast(evidence, planned, {
      rate: rate.likely,
      spread: rate.spread ?? 0,
      alternatives,
    });
    return {
      ...years,
      // worked out only where somebody asks
      get weakestLink() {
        return years.weakestLink();
      },
      use,
      assumptions: [
        FORECAST_NOTE,
        ...(refused ? ['Infant sleep is refused; the years are those in storage.'] : []),
        ...past.assumptions,
        ...gap.assumptions,
        ...care.assumptions,
        ...clothAssumptions(plan.quilt, plan.actions),
      ],
    };
  };
}

/** What every plan of one quilt is forecast from. */
export interface ForecastContext extends Omit<LifeContext, 'history'> {
  readonly latest: Pick<QuiltCase, 'history' | 'client' | 'quilt'>;
  /** The vocabulary's chances of each grade, best first. */
  readonly gradeOdds?: readonly number[] | undefined;
  readonly figures: Figures;
}

/** Percentiles of the years until a repair is due: the 10th, the 50th and the 90th. */
export interface Years {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly horizon: number;
  weakestLink(): string;
}

export interface LifeModel {
  forecast(evidence: QuiltEvidence, planned: PlannedQuilt, pace: Pace): Years;
}

/** What is kept from call to call: enough for the variants of one quilt, little enough for thousands of quilts in turn. */
const KEPT = { models: 30, outlooks: 40, forecasts: 400 };

/** `fineness` multiplies the number of nodes; only tests need another than 1. */
export function lifeModel(prior: LifePrior, fineness = 1): LifeModel {
  const outlooks = new Map<string, Outlook>();
  const outlook = memoizeByObject((evidence: QuiltEvidence) =>
    memoizeByKey(
      outlooks,
      JSON.stringify(evidence),
      () => outlookOf(evidence, prior, fineness),
      KEPT.outlooks,
    ),
  );
  // plans that differ in spacing or batting may still wear alike
  const curves = memoizeByObject((_: Outlook) => new Map<string, WearCurve>());
  const forecasts = memoizeByObject((_: Outlook) => new Map<string, Years>());
  const curve = (own: Outlook, planned: PlannedQuilt, { spread }: Pace): WearCurve =>
    memoizeByKey(
      curves(own),
      `${spread} ${JSON.stringify(planned)}`,
      () => blurred(wearCurve(planned, own), spread),
      KEPT.forecasts,
    );
  return {
    forecast: (evidence, planned, pace) => {
      const own = outlook(evidence);
      const first = (wear: number): string => mostDamaged(planned, own, wear);
      const key = JSON.stringify([planned, pace]);
      return memoizeByKey(
        forecasts(own),
        key,
        () => yearsOf(curve(own, planned, pace), pace, first, prior.horizon),
        KEPT.forecasts,
      );
    },
  };
}

function yearsOf(curve: WearCurve, pace: Pace, first: (wear: number) => string, horizon: number): Years {
  const at = (p: number): number => yearsUntil(curve, pace, p, horizon);
  const middle = at(0.5);
  const weakestLink = memoize(() => first(middle * pace.rate));
  return { low: at(0.1), middle, high: at(0.9), horizon, weakestLink };
}

/**
 * One model for each set of priors: what it has weighed for one quilt serves every variant of it that is asked about, and
 * every set of figures that differs in pace alone.
 */
const modelOf = memoizeByObject((figures: Figures): LifeModel => {
  const prior = lifePrior(figures);
  return memoizeByKey(MODELS, JSON.stringify(prior), () => lifeModel(prior), KEPT.models);
});

const MODELS = new Map<string, LifeModel>();
