import { gamma, upperGamma } from './gamma.ts';

/** Two-parameter Weibull: F(t) = 1 − exp(−(t / scale)^shape), t ≥ 0. Formulas: NIST/SEMATECH e-Handbook 8.1.6.2. */
export interface Weibull {
  readonly shape: number;
  readonly scale: number;
}

/** H(t) = (t / scale)^shape. */
export const cumulativeHazard = ({ shape, scale }: Weibull, t: number): number => (t / scale) ** shape;

export const weibullCdf = (life: Weibull, t: number): number => -Math.expm1(-cumulativeHazard(life, t));

export const weibullSurvival = (life: Weibull, t: number): number => Math.exp(-cumulativeHazard(life, t));

/** Failures per unit of time among those still whole at t: (shape / scale)(t / scale)^(shape − 1). */
export const weibullHazard = ({ shape, scale }: Weibull, t: number): number =>
  (shape / scale) * (t / scale) ** (shape - 1);

/** The age by which a share p has failed; `weibullQuantile(life, 0.1)` is the B10 life. */
export const weibullQuantile = ({ shape, scale }: Weibull, p: number): number =>
  scale * (-Math.log1p(-p)) ** (1 / shape);

export const weibullMean = ({ shape, scale }: Weibull): number => scale * gamma(1 + 1 / shape);

export const weibullVariance = (life: Weibull): number =>
  life.scale ** 2 * gamma(1 + 2 / life.shape) - weibullMean(life) ** 2;

/** P(whole at age + t | whole at age). */
export const conditionalSurvival = (life: Weibull, age: number, t: number): number =>
  Math.exp(cumulativeHazard(life, age) - cumulativeHazard(life, age + t));

/** Mean further life at an age: (scale / shape) e^x Γ(1/shape, x), x = (age / scale)^shape. */
export function meanResidualLife(life: Weibull, age: number): number {
  const x = cumulativeHazard(life, age);
  return (life.scale / life.shape) * Math.exp(x) * upperGamma(1 / life.shape, x);
}

/** The further life that half of those whole at an age reach. */
export const medianResidualLife = (life: Weibull, age: number): number =>
  life.scale * (cumulativeHazard(life, age) + Math.LN2) ** (1 / life.shape) - age;
