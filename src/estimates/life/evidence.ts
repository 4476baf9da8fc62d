/** The cumulative hazard H already passed, for each of several shapes. */
export interface PassedHazard {
  /** ln H. */
  readonly log: Float64Array;
  readonly hazard: Float64Array;
  /** ln of the probability 1 − e^−H of having failed. */
  readonly logFailed: Float64Array;
}

// Plain loops: these run thousands of times in the first hundredths of a second, before anything is compiled for speed.

export function passedHazard(log: Float64Array): PassedHazard {
  const hazard = new Float64Array(log.length);
  const logFailed = new Float64Array(log.length);
  for (let i = 0; i < log.length; i++) {
    const one = Math.exp(log[i] ?? 0);
    hazard[i] = one;
    logFailed[i] = Math.log(-Math.expm1(-one));
  }
  return { log, hazard, logFailed };
}

/** ln of each shape's weight times the binomial likelihood, up to a constant, of `failed` of `seen` at that shape. */
export function weighedByEvidence(
  logWeights: Float64Array,
  failed: number,
  seen: number,
  { hazard, logFailed }: PassedHazard,
): Float64Array {
  const logs = new Float64Array(logWeights.length);
  for (let i = 0; i < logs.length; i++) {
    const whole = (seen - failed) * (hazard[i] ?? 0);
    const likelihood = failed === 0 ? -whole : failed * (logFailed[i] ?? 0) - whole;
    logs[i] = (logWeights[i] ?? 0) + likelihood;
  }
  return logs;
}
