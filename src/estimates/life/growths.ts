import { DUE, growth } from './hazard.ts';
import type { Posterior } from './posterior.ts';
import type { LifePrior } from './prior.ts';

/** The wear-years ahead at which damage is worked out, evenly spaced in their logarithms. */
export interface WearGrid {
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

export function growths({ clocks }: Posterior, { newWork }: LifePrior, fineness: number): Growths {
  const grid = wearGrid(fineness);
  return {
    grid,
    old: clocks.map(({ wear, shape }) => grid.at.map((t) => growth(t, wear, shape))),
    fresh: clocks.map(({ shape }) => grid.at.map((t) => DUE * (t / newWork) ** shape)),
  };
}
