/** −ln(1 − 0.05): a life is the wear in which a further 5 % give way. */
export const DUE = -Math.log(0.95);

/** (1 + t/A)^k − 1: how a Weibull hazard has grown when t more wear-years follow on A. */
export const growth = (t: number, wear: number, shape: number): number =>
  Math.expm1(shape * Math.log1p(t / wear));

/**
 * The hazard already passed after `wear` wear-years by cloth or thread of which a further 5 % give way in `life` more:
 * H = L ÷ ((1 + r/A)^k − 1). Its further hazard at t is H·((1 + t/A)^k − 1).
 */
export const passed = (life: number, wear: number, shape: number): number => DUE / growth(life, wear, shape);

/** Wear so far, and how wear quickens. */
export interface Clock {
  readonly wear: number;
  readonly shape: number;
}
