import type { QuiltCase } from '../../casebook/model.ts';
import { GRADES, type Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import type { Plan } from '../../plans/model.ts';
import { oncePer, remembered } from '../../quantities/once.ts';
import type { HoleEstimate } from '../model.ts';
import { type DueHazard, dueHazard } from './due-hazard.ts';
import { lifeInputs } from './elements.ts';
import { type FirstFailure, firstFailure, type Member, type Weighed, weigh } from './first-failure.ts';
import { type Lattice, lattice } from './lattice.ts';
import { FORECAST_NOTE, type LifeElement, type LifeInput, type RemainingLife } from './model.ts';
import type { LifeContext } from './plan-wear.ts';
import { inspected, type Posterior, uninspected } from './posterior.ts';
import { type LifePrior, lifePrior } from './prior.ts';

/**
 * How many years until the next repair is due. No published study calibrates the life of a repaired quilt: what
 * follows joins the trade's judgement (figures.yaml, `life`) to what was seen, and its arithmetic alone is checked.
 *
 * Wear is measured in wear-years, one year of regular bed use. An element (one fabric's old cloth, say) has borne A
 * of them. Its units fail independently with cumulative hazard H(w) = H·(w / A)^k after wear w: a Weibull life, scaled
 * so that H is the hazard already passed. One inspection cannot tell both scale and shape, so judgement goes where
 * the trade can judge: r, the further wear by which a further share s (5 %) fails, lognormal by fragility; and k,
 * lognormal. Since the further hazard after wear t is H(A + t) − H(A) = H·[(1 + t/A)^k − 1], setting it to
 * −ln(1 − s) at t = r gives
 *
 *     H = −ln(1 − s) ÷ ((1 + r/A)^k − 1).
 *
 * Of n units seen x had failed, x ~ Binomial(n, 1 − e^−H). A repair is due at the j-th further failure of the N
 * units the element was made with, j = ⌈s N⌉ (N is not the survivors, or more damage would mean a longer wait). The
 * j-th smallest of N uniforms is U ~ Beta(j, N − j + 1), so with L = −ln(1 − U) the wear until due is
 *
 *     T = A·[(1 + L/H)^(1/k) − 1], in years T ÷ (rate × wear multiplier).
 *
 * Where nothing was inspected U = s and T = r. The posterior over r, k and, where the history is unknown, A is summed
 * over fixed nodes (lattice.ts), never sampled. A grade not known is a mixture. The quilt lasts until its first element
 * is due; given A they are independent, so their survival curves multiply, and A, which they share, is summed last.
 * Uncertainty of the future rate is shared too and comes after that.
 */
export interface LifeModel {
  /** Throws RangeError on impossible counts or wear, or where no element stands. */
  remainingLife(input: LifeInput): RemainingLife;
}

/**
 * How much is kept from call to call, because plans for one quilt differ in wear and not in evidence: enough for the
 * variants of one quilt, and little enough that thousands of quilts one after another fill no memory (a posterior takes
 * up to a megabyte).
 */
const KEPT = { lattices: 20, hazards: 400, posteriors: 100, weighings: 100, forecasts: 1000 };

/** `fineness` multiplies the number of nodes; only tests need another than 1. */
export function lifeModel(figures: Figures, fineness = 1): LifeModel {
  const prior = lifePrior(figures);
  const lattices = new Map<string, Lattice>();
  const hazards = new Map<number, DueHazard>();
  const posteriors = new Map<string, Posterior>();
  const forecasts = new Map<string, RemainingLife>();
  const weighings = new Map<string, Weighed>();
  const posterior = ({ units, seen = 0, failed = 0 }: LifeElement, grid: Lattice): Posterior => {
    if (seen === 0) return uninspected(grid, prior);
    const due = remembered(hazards, units, () => dueHazard(units, prior.share, fineness), KEPT.hazards);
    return inspected(grid, prior, { seen, failed }, due);
  };
  const work = (input: LifeInput): RemainingLife => {
    check(input);
    const wear = JSON.stringify(input.wear);
    const grid = remembered(lattices, wear, () => lattice(input.wear, prior, fineness), KEPT.lattices);
    const members = input.elements.map((element) => {
      const { units, seen = 0, failed = 0, grade } = element;
      const evidence = seen === 0 ? wear : `${wear} ${units} ${seen} ${failed}`;
      const told = () => remembered(posteriors, evidence, () => posterior(element, grid), KEPT.posteriors);
      const weighed = remembered(
        weighings,
        `${evidence} ${JSON.stringify(grade)}`,
        () => weigh(grade, told(), grid, prior.due.length),
        KEPT.weighings,
      );
      return { element, weighed };
    });
    return forecast(input, members, grid, prior);
  };
  // Hundreds of plans of one quilt differ in spacing or batting and still wear alike.
  const byContent = (input: LifeInput): RemainingLife =>
    remembered(forecasts, JSON.stringify(input), () => work(input), KEPT.forecasts);
  return { remainingLife: oncePer(byContent) };
}

function forecast(
  input: LifeInput,
  members: readonly Member[],
  grid: Lattice,
  prior: LifePrior,
): RemainingLife {
  const standing = members.filter(({ element }) => element.gone !== true);
  const hopeless = standing.find(({ weighed }) => weighed.hopeless);
  if (hopeless !== undefined) return untilHandled(input, hopeless.element, prior);
  const pace: Pace = {
    spread: input.rateSpread,
    alternatives: input.alternatives ?? [{ weight: 1, wear: 1 }],
  };
  const { horizon } = prior;
  const furthest = reach(pace, Math.max(horizon, input.wantedYears ?? 0));
  const life = firstFailure(members, grid, input.ratePerYear, furthest);
  const firstToFail = standing
    .map(({ element }, i) => ({ name: element.name, probability: life.first[i] ?? 0 }))
    .sort((a, b) => b.probability - a.probability);
  const years = (p: number): number => yearsUntil(life, pace, p, horizon);
  return {
    low: years(0.1),
    middle: years(0.5),
    high: years(0.9),
    horizon,
    weakestLink: firstToFail[0]?.name ?? '',
    use: input.use,
    assumptions: [FORECAST_NOTE, ...(input.assumptions ?? [])],
    chance: input.wantedYears === undefined ? undefined : survivalAt(life, pace, input.wantedYears),
    firstToFail,
  };
}

/** Cloth that is failing lasts until it is next handled: no number of years is offered. */
function untilHandled(input: LifeInput, element: LifeElement, { horizon }: LifePrior): RemainingLife {
  return {
    low: 0,
    middle: 0,
    high: 0,
    horizon,
    weakestLink: element.name,
    use: input.use,
    assumptions: [
      `No forecast is offered. The part that gives way first, ${element.name}, is ${GRADES.at(-1)} and lasts until it is next handled.`,
      ...(input.assumptions ?? []),
    ],
    chance: undefined,
    firstToFail: [{ name: element.name, probability: 1 }],
  };
}

function check({ elements, wear, ratePerYear }: LifeInput): void {
  if (!elements.some((element) => element.gone !== true)) {
    throw new RangeError('remaining life needs at least one element that stays');
  }
  if ('known' in wear && !(wear.known > 0))
    throw new RangeError(`wear so far must be above 0, not ${wear.known}`);
  if (!(ratePerYear > 0)) throw new RangeError(`the rate of wear must be above 0, not ${ratePerYear}`);
  for (const { name, units, seen = 0, failed = 0 } of elements) {
    if (!(Number.isInteger(units) && units > 0 && failed >= 0 && failed <= seen)) {
      throw new RangeError(
        `${name}: needs units > 0 and 0 ≤ failed ≤ seen; got ${failed} of ${seen}, ${units} units`,
      );
    }
  }
}

/** What every plan of one quilt is forecast from. */
export interface ForecastContext {
  readonly latest: Pick<QuiltCase, 'history' | 'client'>;
  readonly use: Use;
  readonly directLight: boolean | undefined;
  readonly washing: LifeContext['washing'];
  readonly ageYears: number | undefined;
  /** The vocabulary's chances of each grade, best first. */
  readonly gradeOdds?: readonly number[] | undefined;
  readonly figures: Figures;
}

/** Remaining life of each plan; evidence is weighed once and shared by all of them. */
export function lifeForecaster(context: ForecastContext): (plan: Plan, holes: HoleEstimate) => RemainingLife {
  const { latest, figures, use, ageYears, washing, directLight, gradeOdds } = context;
  const { history, client } = latest;
  const wantedYears = client.wanted_years;
  const input = lifeInputs({ use, history, ageYears, washing, directLight, wantedYears, gradeOdds }, figures);
  const model = modelOf(figures);
  return (plan, { perforation }) => model.remainingLife(input(plan, perforation));
}

/** One model for each set of figures: what it has weighed for one quilt serves every variant of it that is asked about. */
const modelOf = oncePer((figures: Figures): LifeModel => lifeModel(figures));

/** What speeds up or slows down the whole quilt's wear, as a distribution. */
interface Pace {
  /** Log-standard deviation of the future rate of use. */
  readonly spread: number;
  readonly alternatives: readonly { readonly weight: number; readonly wear: number }[];
}

/** Reach of the spread of the rate in standard deviations, each cut into this many parts. */
const REACH = 4;
const PARTS = 6;

/** How far along the curve of a middling pace anything up to `years` may look. */
const reach = (pace: Pace, years: number): number =>
  years * Math.exp(REACH * pace.spread) * Math.max(...pace.alternatives.map(({ wear }) => wear));

/** P(no repair due within `years`), the pace of wear integrated out. */
function survivalAt(life: FirstFailure, pace: Pace, years: number): number {
  const total = pace.alternatives.reduce((sum, { weight }) => sum + weight, 0);
  let survival = 0;
  for (const { weight, wear } of pace.alternatives) {
    const log = Math.log(years * wear);
    survival += (weight / total) * (pace.spread > 0 ? blurred(life, log, pace.spread) : at(life, log));
  }
  return survival;
}

const NODES = Float64Array.from({ length: 2 * REACH * PARTS + 1 }, (_, i) => i / PARTS - REACH);
const WEIGHTS = NODES.map((z) => Math.exp(-0.5 * z * z));
const NODES_WEIGHT = WEIGHTS.reduce((sum, weight) => sum + weight, 0);

function blurred(life: FirstFailure, log: number, spread: number): number {
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) sum += (WEIGHTS[i] ?? 0) * at(life, log + spread * (NODES[i] ?? 0));
  return sum / NODES_WEIGHT;
}

/** Straight between lattice points; whole before them, due after. */
function at({ survival, start, step }: FirstFailure, log: number): number {
  const x = (log - start) / step;
  if (x <= 0) return 1;
  const cell = Math.floor(x);
  const left = survival[cell] ?? 0;
  return left + (x - cell) * ((survival[cell + 1] ?? 0) - left);
}

/** The years by which a repair is due with probability p, or the horizon where that lies beyond it. 0: due already. */
function yearsUntil(life: FirstFailure, pace: Pace, p: number, horizon: number): number {
  if (survivalAt(life, pace, horizon) > 1 - p) return horizon;
  const node = (i: number): number => survivalAt(life, pace, Math.exp(life.start + i * life.step));
  if (node(0) <= 1 - p) return 0;
  let low = 0;
  let high = Math.ceil((Math.log(horizon) - life.start) / life.step);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (node(middle) > 1 - p) low = middle;
    else high = middle;
  }
  // between neighbouring points survival is as good as straight over log years
  const above = node(low);
  const part = (above - (1 - p)) / (above - node(high));
  return Math.min(horizon, Math.exp(life.start + (low + part) * life.step));
}
