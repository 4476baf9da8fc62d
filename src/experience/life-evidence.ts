import type { QuiltCase } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import { agreedOption, doneOption } from '../decision/choice.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Settled } from '../decision/outcome.ts';
import type { Option, Situation } from '../decision/situation.ts';
import { lifeForecaster } from '../estimates/life/remaining-life.ts';
import type { Figures } from '../figures/model.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Interval, normalCdf, normalQuantile, wilson } from '../statistics/intervals.ts';
import { asUsed, type RepairOutcome, repairOutcome } from './due.ts';
import { withFactors } from './proposal.ts';

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
    lifeForecaster(contextOf(situation, vocabulary, with_))(done.plan, done.estimator.holes());
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
  ...LIVES.flatMap((lives) => figures.below(lives).map((name) => `${lives}.${name}`)),
  'life.new_work',
  ...figures
    .below('life.rate')
    .filter((use) => use !== 'regular_bed' && use !== 'infant_sleep')
    .map((use) => `life.rate.${use}`),
  ...FACTORS.flatMap((factors) => figures.below(factors).map((name) => `${factors}.${name}`)),
];

const LIVES = ['life.repair_due', 'life.thread'];
const FACTORS = ['life.times', 'life.held'];

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
  const light = facts['finding.direct_light'];
  return {
    latest,
    use: situation.use ?? ('guest_bed' as const),
    washing: WASHINGS.find((one) => one === name) ?? ('unknown' as const),
    directLight: typeof light === 'boolean' ? light : undefined,
    ageYears: typeof age === 'number' ? age : undefined,
    gradeOdds: vocabulary.family.get('fragility')?.options.map(({ likelihood }) => likelihood ?? 0),
    figures,
  };
};

type Place = 'inside' | 'sooner' | 'later' | 'open';

/** Forecasts beside what became of them. */
export interface LifeRecord {
  readonly followed: number;
  readonly due: number;
  /** Repairs the forecasts expected over the years the quilts were in view: Σ −ln(1 − F). */
  readonly expected: number;
  readonly places: Readonly<Record<Place, number>>;
  /** Share inside the 80 % range among those that are not open; undefined where all are open. */
  readonly inside: { readonly share: number; readonly of: number; readonly interval: Interval } | undefined;
}

/** Where an outcome lies beside its forecast's 80 % range: open where follow-ups do not tell yet. */
export const placeOf = ({ forecast, outcome }: Pick<LifeEvidence, 'forecast' | 'outcome'>): Place => {
  const { low, high, horizon } = forecast;
  const { wholeAt, dueAt } = outcome;
  if (dueAt !== undefined && dueAt < low) return 'sooner';
  if (high < horizon && wholeAt > high) return 'later';
  if (dueAt !== undefined && wholeAt >= low && (dueAt <= high || high >= horizon)) return 'inside';
  // Found due at the first look past the low end: it may have been due just before.
  if (dueAt !== undefined && dueAt >= low && dueAt <= high) return 'inside';
  return 'open';
};

export const lifeRecord = (evidence: readonly LifeEvidence[]): LifeRecord => {
  const places: Record<Place, number> = { inside: 0, sooner: 0, later: 0, open: 0 };
  let expected = 0;
  for (const one of evidence) {
    places[placeOf(one)] += 1;
    const curve = forecastCurve(one.forecast);
    if (curve !== undefined)
      expected += -Math.log1p(-Math.min(1 - 1e-9, curve.dueBy(one.outcome.dueAt ?? one.outcome.wholeAt)));
  }
  const told = places.inside + places.sooner + places.later;
  return {
    followed: evidence.length,
    due: evidence.filter(({ outcome }) => outcome.dueAt !== undefined).length,
    expected,
    places,
    inside:
      told === 0
        ? undefined
        : { share: places.inside / told, of: told, interval: wilson(places.inside, told, 0.95) },
  };
};

/** A forecast of years as its 10th, 50th and 90th percentiles say it. */
export interface ForecastRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly horizon: number;
}

/** P(a repair is due within `years`), and how wide each side is on the log scale. */
export interface ForecastCurve {
  dueBy(years: number): number;
  readonly middle: number;
}

const Z = normalQuantile(0.9);
/** A low end of nothing would make a spread without end. */
const WIDEST = 2.5;
const NARROWEST = 0.05;

/**
 * The curve behind a forecast: normal in log years on each side of the middle, through the three percentiles. Where the
 * high end lies beyond the horizon nobody knows it, and the low side's spread stands for both. Undefined where even the
 * middle is beyond the horizon, or no forecast stands: such a quilt tells nothing yet.
 */
export const forecastCurve = ({ low, middle, high, horizon }: ForecastRange): ForecastCurve | undefined => {
  if (!(middle > 0) || middle >= horizon) return undefined;
  const held = (spread: number): number => Math.min(WIDEST, Math.max(NARROWEST, spread));
  const below = held(Math.log(middle / Math.max(low, 1e-6)) / Z);
  const above = high >= horizon ? below : held(Math.log(high / middle) / Z);
  return {
    middle,
    dueBy: (years) => {
      if (!(years > 0)) return 0;
      const log = Math.log(years / middle);
      return normalCdf(log / (log < 0 ? below : above));
    },
  };
};

/**
 * Log-likelihood of a repair coming due in an interval (or not by its start, where it has no end) when the forecast's
 * years are stretched by e^`stretch`.
 */
export const outcomeLogLikelihood =
  (curve: ForecastCurve, from: number, to: number | undefined) =>
  (stretch: number): number => {
    const by = (years: number): number => curve.dueBy(years * Math.exp(-stretch));
    const chance = to === undefined ? 1 - by(from) : by(to) - by(from);
    return Math.log(Math.max(chance, 1e-12));
  };
