import type { Figures } from '../figures/model.ts';
import { type Range, times } from '../quantities/range.ts';

/** ISO 105-B08 blue wool steps, 1 the most sensitive. */
export type BlueWoolStep = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** How a quilt is lit while it is up. */
export interface Lighting {
  /** Level on the quilt in lux. */
  readonly lux: Range;
  /** Hours lit in a year of being up all the time. */
  readonly hoursPerYear: Range;
  /** Whether ultraviolet is filtered out. It shares in the fading but is not the greater part of it. */
  readonly uvBlocked: boolean;
  /** Share of the year it is up: see `rotationShare`. 1 is always. */
  readonly share: number;
}

/** The light of a kind of place named in the figures, such as a home wall: not measured, so a wide range. */
export const lightingAt = (
  place: string,
  figures: Figures,
  { uvBlocked, share }: Pick<Lighting, 'uvBlocked' | 'share'>,
): Lighting => ({
  lux: figures.range(`light.place.${place}.lux`),
  hoursPerYear: times(figures.range(`light.place.${place}.hours`), figures.number('light.days_a_year')),
  uvBlocked,
  share,
});

/** Lux-hours a year: level and time weigh alike (reciprocity). */
export const annualDose = (lux: number, hoursPerYear: number, share = 1): number =>
  lux * hoursPerYear * share;

/** Share of the time a quilt is up when so many months on show are followed by so many at rest. */
export const rotationShare = (monthsUp: number, monthsAtRest: number): number => {
  if (!(monthsUp >= 0 && monthsAtRest >= 0 && monthsUp + monthsAtRest > 0)) {
    throw new RangeError(`Not a rotation: ${monthsUp} months up, ${monthsAtRest} at rest`);
  }
  return monthsUp / (monthsUp + monthsAtRest);
};

/** Lux-hours to a just noticeable fade for a dye of the given step. */
export const doseToFade = (step: BlueWoolStep, uvBlocked: boolean, figures: Figures): Range => {
  const { low, likely, high } = figures.range(`light.dose.${uvBlocked ? 'uv_blocked' : 'with_uv'}.${step}`);
  return { low: low * 1e6, likely: likely * 1e6, high: high * 1e6 };
};

const stepAt = (value: number): BlueWoolStep => {
  const steps: readonly BlueWoolStep[] = [1, 2, 3, 4, 5, 6, 7, 8];
  return steps.find((step) => step >= value - 0.5) ?? 8;
};

/**
 * Years on show until the first fade anyone would notice, infinite where there is no light. A dye nobody has measured
 * has no rating: pass no step, and the range runs over the sensitive steps that old dyes may have. Low joins the
 * strongest light to the most sensitive dye, so the range bounds rather than measures.
 */
export const yearsToFade = (lighting: Lighting, step: BlueWoolStep | undefined, figures: Figures): Range => {
  const steps: Range =
    step === undefined ? figures.range('light.unmeasured_dye') : { low: step, likely: step, high: step };
  const years = (side: keyof Range, light: keyof Range): number => {
    const dose = doseToFade(stepAt(steps[side]), lighting.uvBlocked, figures)[side];
    return dose / annualDose(lighting.lux[light], lighting.hoursPerYear[light], lighting.share);
  };
  return { low: years('low', 'high'), likely: years('likely', 'likely'), high: years('high', 'low') };
};
