import { normalCdf } from './normal.ts';

/**
 * The standard distribution of a standardised log life z = (ln t − location) / scale. All functions are safe far out
 * in both tails. `logSlope` is the derivative of ln density.
 */
export interface LogLife {
  readonly logDensity: (z: number) => number;
  readonly logSlope: (z: number) => number;
  readonly logSurvival: (z: number) => number;
  readonly logCdf: (z: number) => number;
}

/** Smallest extreme value: ln t is so distributed when t is Weibull (location ln scale, scale 1 / shape). */
export const extremeValue: LogLife = {
  logDensity: (z) => z - Math.exp(z),
  logSlope: (z) => 1 - Math.exp(z),
  logSurvival: (z) => -Math.exp(z),
  logCdf: (z) => Math.log(-Math.expm1(-Math.exp(z))),
};

const LOG_ROOT_TWO_PI = Math.log(2 * Math.PI) / 2;

/** Beyond z = −30 the cdf underflows towards 0; ln Φ(z) ≈ ln φ(z) − ln(−z) − 1/z² there (Mills' ratio). */
function normalLogCdf(z: number): number {
  if (z > -30) return Math.log(normalCdf(z));
  return -0.5 * z * z - LOG_ROOT_TWO_PI - Math.log(-z) - 1 / (z * z);
}

/** Standard normal: ln t is so distributed when t is lognormal. */
export const standardNormal: LogLife = {
  logDensity: (z) => -0.5 * z * z - LOG_ROOT_TWO_PI,
  logSlope: (z) => -z,
  logSurvival: (z) => normalLogCdf(-z),
  logCdf: normalLogCdf,
};
