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

/** The wear-years ahead at which damage is worked out, evenly spaced in their logarithms. */
interface WearGrid {
  readonly logFrom: number;
  readonly logStep: number;
  readonly at: Float64Array;
}

const FROM = 0.02;
const TO = 150;
const POINTS = 38;

function wearGrid(fineness: number): WearGrid {
  const points = POINTS * fineness;
  const [logFrom, logTo] = [Math.log(FROM), Math.log(TO)];
  const logStep = (logTo - logFrom) / (points - 1);
  const at = Float64Array.from({ length: points }, (_, i) => Math.exp(logFrom + i * logStep));
  return { logFrom, logStep, at };
}

/** How hazards grow along the grid, clock by clock: the same for all plans of a quilt. */
export interface Growths {
  readonly grid: WearGrid;
  /** What multiplies the hazard already passed of old work. */
  readonly old: readonly Float64Array[];
  /** The hazard of new work. */
  readonly fresh: readonly Float64Array[];
}

export function growths(clocks: readonly Clock[], newWork: number, fineness: number): Growths {
  const grid = wearGrid(fineness);
  return {
    grid,
    old: clocks.map(({ wear, shape }) => grid.at.map((t) => growth(t, wear, shape))),
    fresh: clocks.map(({ shape }) => grid.at.map((t) => DUE * (t / newWork) ** shape)),
  };
}
