import type { LifeData } from './life-data.ts';
import type { LogLife } from './location-scale.ts';
import { extremeValue, standardNormal } from './location-scale.ts';
import type { Weibull } from './weibull.ts';

/**
 * Maximum likelihood for log-location-scale lives with exact, right-, left- and interval-censored data.
 *
 * In a = 1 / scale and b = location / scale, with z = a ln t − b, the log-likelihood is concave whenever the standard
 * density is log-concave (Burridge 1981, J. R. Statist. Soc. B 43:41–45; from memory), as both here are: one maximum
 * at most, so damped Newton steps that never accept a worse point must find it.
 */
interface Fit {
  readonly location: number;
  readonly scale: number;
  readonly logLikelihood: number;
}

export interface WeibullFit extends Weibull {
  readonly logLikelihood: number;
}

export interface LognormalFit {
  /** Mean and standard deviation of ln t. */
  readonly mu: number;
  readonly sigma: number;
  readonly logLikelihood: number;
}

type Point = readonly [a: number, b: number];
interface Score {
  readonly value: number;
  readonly da: number;
  readonly db: number;
}

/** Contribution of one datum, and its derivatives by the two standardised end points. */
function term(life: LogLife, datum: LifeData, [a, b]: Point): Score {
  const { from, to } = datum;
  if (from === to) {
    const y = Math.log(from);
    const z = a * y - b;
    const slope = life.logSlope(z);
    return { value: Math.log(a) - y + life.logDensity(z), da: 1 / a + slope * y, db: -slope };
  }
  const y1 = from > 0 ? Math.log(from) : undefined;
  const y2 = Number.isFinite(to) ? Math.log(to) : undefined;
  const z1 = y1 === undefined ? undefined : a * y1 - b;
  const z2 = y2 === undefined ? undefined : a * y2 - b;
  const value = logProbability(life, z1, z2);
  // d ln(F(z2) − F(z1)) = (f(z2) dz2 − f(z1) dz1) / (F(z2) − F(z1)), each ratio taken in logs
  const at2 = z2 === undefined ? 0 : Math.exp(life.logDensity(z2) - value);
  const at1 = z1 === undefined ? 0 : Math.exp(life.logDensity(z1) - value);
  return { value, da: at2 * (y2 ?? 0) - at1 * (y1 ?? 0), db: at1 - at2 };
}

/** ln P(z1 < Z ≤ z2), from whichever tail loses no digits. */
function logProbability(life: LogLife, z1: number | undefined, z2: number | undefined): number {
  if (z1 === undefined) return z2 === undefined ? 0 : life.logCdf(z2);
  if (z2 === undefined) return life.logSurvival(z1);
  const upper = life.logSurvival(z1);
  return upper + Math.log(-Math.expm1(life.logSurvival(z2) - upper));
}

function score(life: LogLife, data: readonly LifeData[], point: Point): Score {
  let value = 0;
  let da = 0;
  let db = 0;
  for (const datum of data) {
    const one = term(life, datum, point);
    value += datum.count * one.value;
    da += datum.count * one.da;
    db += datum.count * one.db;
  }
  return { value, da, db };
}

/** Newton direction from a central difference of the exact gradient; the gradient itself where curvature fails. */
function direction(life: LogLife, data: readonly LifeData[], [a, b]: Point, here: Score): Point {
  const ha = 1e-5 * a;
  const hb = 1e-5 * Math.max(1, Math.abs(b));
  const aUp = score(life, data, [a + ha, b]);
  const aDown = score(life, data, [a - ha, b]);
  const bUp = score(life, data, [a, b + hb]);
  const bDown = score(life, data, [a, b - hb]);
  const aa = (aUp.da - aDown.da) / (2 * ha);
  const bb = (bUp.db - bDown.db) / (2 * hb);
  const ab = (aUp.db - aDown.db) / (2 * ha);
  const determinant = aa * bb - ab * ab;
  if (!(aa < 0 && determinant > 0)) return [here.da, here.db];
  return [(ab * here.db - bb * here.da) / determinant, (ab * here.da - aa * here.db) / determinant];
}

function start(data: readonly LifeData[]): Point {
  let weight = 0;
  let sum = 0;
  for (const { from, to, count } of data) {
    const typical = Number.isFinite(to) ? (from + to) / 2 : from;
    if (typical > 0) {
      weight += count;
      sum += count * Math.log(typical);
    }
  }
  return [1, weight > 0 ? sum / weight : 0];
}

function maximise(life: LogLife, data: readonly LifeData[]): Fit | undefined {
  let point = start(data);
  let here = score(life, data, point);
  for (let step = 0; step < 200; step++) {
    const [da, db] = direction(life, data, point, here);
    let size = 1;
    let next = point;
    let there = here;
    for (; size > 1e-12; size /= 2) {
      next = [point[0] + size * da, point[1] + size * db];
      if (next[0] <= 0) continue;
      there = score(life, data, next);
      if (there.value > here.value) break;
    }
    if (!(there.value > here.value)) break;
    const gained = there.value - here.value;
    point = next;
    here = there;
    if (!(point[0] < 1e4 && Number.isFinite(point[1]))) return undefined;
    if (gained < 1e-12 * Math.abs(here.value) && size === 1) break;
  }
  const [a, b] = point;
  if (a < 1e-4 || !Number.isFinite(here.value)) return undefined;
  return { location: b / a, scale: 1 / a, logLikelihood: here.value };
}

/** A maximum exists only if lives known to have ended differ from each other, or overlap with those known to last. */
function informative(data: readonly LifeData[]): boolean {
  const ended = data.filter((datum) => datum.count > 0 && Number.isFinite(datum.to));
  const lasting = data.filter((datum) => datum.count > 0 && datum.from > 0 && datum.from < datum.to);
  if (ended.length === 0) return false;
  const exact = new Set(ended.filter((datum) => datum.from === datum.to).map((datum) => datum.from));
  const earliestEnd = Math.min(...ended.map((datum) => datum.to));
  return exact.size > 1 || lasting.some((datum) => datum.from >= earliestEnd);
}

function fitLogLife(life: LogLife, data: readonly LifeData[]): Fit | undefined {
  for (const { from, to, count } of data) {
    if (!(from >= 0 && to >= from && to > 0 && count >= 0)) {
      throw new RangeError(`life data need 0 ≤ from ≤ to, to > 0, count ≥ 0; got ${from}…${to} × ${count}`);
    }
  }
  return informative(data) ? maximise(life, data) : undefined;
}

/** Weibull fit, or undefined where the data have no maximum (nothing failed, or all failed at one time). */
export function fitWeibull(data: readonly LifeData[]): WeibullFit | undefined {
  const found = fitLogLife(extremeValue, data);
  return (
    found && {
      shape: 1 / found.scale,
      scale: Math.exp(found.location),
      logLikelihood: found.logLikelihood,
    }
  );
}

/** Lognormal fit, or undefined where the data have no maximum. */
export function fitLognormal(data: readonly LifeData[]): LognormalFit | undefined {
  const found = fitLogLife(standardNormal, data);
  return found && { mu: found.location, sigma: found.scale, logLikelihood: found.logLikelihood };
}
