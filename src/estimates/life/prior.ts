import { GRADES } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';

/** What the trade can judge, from figures.yaml under `life`. Wear in wear-years. */
export interface LifePrior {
  /** Share of an element whose failing calls for the next repair. */
  readonly share: number;
  /** Wear until that share fails, by grade: median and log-spread. The worst grade has none: no forecast is offered. */
  readonly due: readonly { readonly median: number; readonly spread: number }[];
  /** Weibull shape: median and log-spread. */
  readonly shape: { readonly median: number; readonly spread: number };
  /** Wear so far where the history is unknown. */
  readonly unknownWear: {
    readonly perYear: number;
    readonly spread: number;
    readonly least: number;
    readonly age: number;
    readonly ageSpread: number;
  };
  /** Years beyond which nothing is said. */
  readonly horizon: number;
}

export function lifePrior(figures: Figures): LifePrior {
  const spread = (id: string): number => figures.figure(id).spread ?? 0;
  return {
    share: figures.number('life.repair_share'),
    due: GRADES.filter((grade) => figures.has(`life.repair_due.${grade}`)).map((grade) => ({
      median: figures.number(`life.repair_due.${grade}`),
      spread: spread(`life.repair_due.${grade}`),
    })),
    shape: { median: figures.number('life.shape'), spread: spread('life.shape') },
    unknownWear: {
      perYear: figures.number('life.unknown_wear.per_year'),
      spread: spread('life.unknown_wear.per_year'),
      least: figures.number('life.unknown_wear.least'),
      age: figures.number('life.unknown_wear.age'),
      ageSpread: spread('life.unknown_wear.age'),
    },
    horizon: figures.number('life.horizon'),
  };
}

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
