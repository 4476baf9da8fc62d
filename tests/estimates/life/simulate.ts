import { GRADES, type Use } from '../../../src/casebook/scales.ts';
import type { LifeElement, LifeInput, RemainingLife } from '../../../src/estimates/life/model.ts';
import type { LifePrior } from '../../../src/estimates/life/prior.ts';
import type { LifeModel } from '../../../src/estimates/life/remaining-life.ts';
import { type Random, seeded } from './random.ts';

/** One element of the quilts in a regime: what it is graded, how many units, how many looked at (0: none). */
export interface SimulatedElement {
  readonly grade: number | Readonly<Record<number, number>>;
  readonly units: number;
  readonly seen: number;
}

/** What the world does otherwise than the model believes. */
export interface Twist {
  readonly shape?: number;
  /** Grades worse than graded, by element. */
  readonly worse?: readonly number[];
  /** True wear so far and true future rate over what was told. */
  readonly moreWear?: number;
  readonly harderUse?: number;
  /** Units that have failed stay failed: only survivors can be the next. */
  readonly survivorsOnly?: boolean;
}

export interface Regime {
  readonly name: string;
  readonly use: Use;
  readonly rate: number;
  readonly wear: LifeInput['wear'];
  readonly elements: readonly SimulatedElement[];
  readonly twist?: Twist;
}

export interface Coverage {
  readonly name: string;
  readonly covered: number;
  readonly tooShort: number;
  readonly tooLong: number;
  readonly medianWidth: number;
}

const RATE_SPREAD = 0.15;

/** Share of simulated quilts whose true time to repair lies within the forecast's 80 % range. */
export function coverage(
  model: LifeModel,
  prior: LifePrior,
  regime: Regime,
  quilts: number,
  seed: number,
): Coverage {
  const random = seeded(seed);
  const results = Array.from({ length: quilts }, () => {
    const { truth, elements } = quilt(prior, regime, random);
    const life = model.remainingLife({
      elements,
      wear: regime.wear,
      ratePerYear: regime.rate,
      rateSpread: RATE_SPREAD,
      use: regime.use,
    });
    return { ...verdict(truth, life), width: Math.log(life.high / Math.max(life.low, 1e-3)) };
  });
  const share = (test: (one: (typeof results)[number]) => boolean): number =>
    results.filter(test).length / quilts;
  const widths = results.map(({ width }) => width).sort((a, b) => a - b);
  return {
    name: regime.name,
    covered: share(({ below, above }) => !below && !above),
    tooShort: share(({ below }) => below),
    tooLong: share(({ above }) => above),
    medianWidth: Math.exp(widths[Math.floor(quilts / 2)] ?? 0),
  };
}

/** A range that ends at the horizon says "more than", so nothing lies above it. */
function verdict(truth: number, { low, high, horizon }: RemainingLife): { below: boolean; above: boolean } {
  return { below: Math.min(truth, horizon) < low, above: truth > high && high < horizon };
}

/** Draws a quilt from the priors (twisted or not), looks at it once, and lets it wear on unit by unit. */
function quilt(prior: LifePrior, regime: Regime, random: Random): { truth: number; elements: LifeElement[] } {
  const twist = regime.twist ?? {};
  const wear = trueWear(prior, regime, random) * (twist.moreWear ?? 1);
  const rate = regime.rate * random.lognormal(1, RATE_SPREAD) * (twist.harderUse ?? 1);
  const lives = regime.elements.map((element, i) => {
    const grade = trueGrade(element.grade, random) + (twist.worse?.[i] ?? 0);
    const due = prior.due[grade];
    if (due === undefined) throw new Error(`${GRADES[grade]} cloth has no life to simulate`);
    const r = random.lognormal(due.median, due.spread);
    const k = random.lognormal(prior.shape.median, prior.shape.spread) * (twist.shape ?? 1);
    return { element, ...wearOn(element, { wear, r, k, share: prior.share }, random, twist) };
  });
  return {
    truth: Math.min(...lives.map(({ due }) => due)) / rate,
    elements: lives.map(({ element, failed }, i) => ({
      name: `element ${i}`,
      grade: element.grade,
      units: element.units,
      ...(element.seen > 0 ? { seen: element.seen, failed } : {}),
      wear: 1,
    })),
  };
}

function trueWear(prior: LifePrior, { wear }: Regime, random: Random): number {
  if ('known' in wear) return wear.known;
  const { perYear, spread, least, age, ageSpread } = prior.unknownWear;
  const wider = wear.madeYearsAgo === undefined ? ageSpread : 0;
  return random.lognormal(Math.max(least, perYear * (wear.madeYearsAgo ?? age)), Math.hypot(spread, wider));
}

const trueGrade = (grade: SimulatedElement['grade'], random: Random): number =>
  typeof grade === 'number' ? grade : random.pick(GRADES.map((_, one) => grade[one] ?? 0));

/** Further wear until the element is due, and how many of those looked at had failed by now. */
function wearOn(
  { units, seen }: SimulatedElement,
  { wear, r, k, share }: { wear: number; r: number; k: number; share: number },
  random: Random,
  { survivorsOnly = false }: Twist,
): { due: number; failed: number } {
  if (seen === 0) return { due: r, failed: 0 };
  const passed = -Math.log1p(-share) / ((1 + r / wear) ** k - 1);
  const failed = random.binomial(seen, -Math.expm1(-passed));
  const able = survivorsOnly ? Math.max(1, units - failed) : units;
  const further = Array.from(
    { length: able },
    () => wear * ((1 + random.exponential() / passed) ** (1 / k) - 1),
  ).sort((a, b) => a - b);
  return { due: further[Math.min(able, Math.ceil(share * units)) - 1] ?? 0, failed };
}
