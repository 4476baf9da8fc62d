/** Values this close to a step count as lying on it, so that 0.1 + 0.2 does not round up to the next eighth. */
const DUST = 1e-9;

/** The nearest multiple of `step` (> 0); halves go up. */
export const roundNearest = (value: number, step: number): number => tidy(Math.round(value / step), step);

/** The smallest multiple of `step` (> 0) not below `value`. */
export const roundUp = (value: number, step: number): number => tidy(Math.ceil(value / step - DUST), step);

/** Whole times that `part` (> 0) goes into `whole`: pieces across a strip, strips across a width. */
export const fits = (whole: number, part: number): number => Math.max(0, Math.floor(whole / part + DUST));

/** Dividing by the reciprocal keeps 0.1-steps free of binary tails; adding 0 turns −0 into 0. */
const tidy = (steps: number, step: number): number => {
  const inverse = Math.round(1 / step);
  const exact = Math.abs(inverse * step - 1) < DUST && inverse > 0;
  return (exact ? steps / inverse : steps * step) + 0;
};
