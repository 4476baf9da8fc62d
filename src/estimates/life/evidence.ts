/**
 * ln of the binomial likelihood, up to a constant, of `failed` of `seen` where each has failed with probability
 * 1 − e^−hazard.
 */
export function logLikelihood(failed: number, seen: number, hazard: number): number {
  const whole = (seen - failed) * hazard;
  return failed === 0 ? -whole : failed * Math.log(-Math.expm1(-hazard)) - whole;
}
