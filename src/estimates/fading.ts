import type { Use } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { type Range, times } from '../quantities/range.ts';
import type { LightEstimate } from './model.ts';

/** Places a quilt on show may hang in, by whether bright window light is known to fall on it. */
const PLACES = {
  true: ['near_window'],
  false: ['home_wall'],
  undefined: ['home_wall', 'near_window'],
} as const;

/**
 * What light does to a quilt on display: the same whatever is sewn, because dyes fade by the dose and not by the
 * stitch. Undefined for every other use. A light nobody measured is a range, and over both places where nobody knows
 * the window.
 */
export const fading = (
  use: Use,
  directLight: boolean | undefined,
  figures: Figures,
): LightEstimate | undefined => {
  if (use !== 'display') return undefined;
  const lighting = (uvBlocked: boolean): Lighting =>
    PLACES[`${directLight}`]
      .map((place) => lightingAt(place, figures, { uvBlocked, share: 1 }))
      .reduce(either);
  const { lux, hoursPerYear } = lighting(false);
  const dose = (side: keyof Range): number => annualDose(lux[side], hoursPerYear[side]);
  const [withUv, uvBlocked] = [false, true].map((blocked) =>
    yearsToFade(lighting(blocked), undefined, figures),
  );
  if (withUv === undefined || uvBlocked === undefined) return undefined;
  const [up, atRest] = ['months_up', 'months_at_rest'].map((id) => figures.number(`light.rotation.${id}`));
  const share = rotationShare(up ?? 1, atRest ?? 0);
  return {
    luxHoursPerYear: { low: dose('low'), likely: dose('likely'), high: dose('high') },
    yearsToFade: { withUv, uvBlocked },
    rotated: {
      share,
      yearsToFade: { withUv: times(withUv, 1 / share), uvBlocked: times(uvBlocked, 1 / share) },
    },
    assumptions: [
      LIGHT[`${directLight}`],
      'Nobody measured how fast its dyes fade: the years run over the sensitive dyes that old cloth may have.',
    ],
  };
};

/** Light in either of two places, most likely in the first. */
const either = (one: Lighting, other: Lighting): Lighting => ({
  ...one,
  lux: span(one.lux, other.lux),
  hoursPerYear: span(one.hoursPerYear, other.hoursPerYear),
});

const span = (one: Range, other: Range): Range => ({
  low: Math.min(one.low, other.low),
  likely: one.likely,
  high: Math.max(one.high, other.high),
});

const LIGHT = {
  true: 'Its light was not measured: it is taken as near a window, out of direct sun.',
  false: 'Its light was not measured: it is taken as a lit wall away from windows.',
  undefined: 'Its light is not known: anything from a lit wall away from windows to a place near one.',
} as const;

/** ISO 105-B08 blue wool steps, 1 the most sensitive. */
export type BlueWoolStep = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** How a quilt is lit while it is up. */
interface Lighting {
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
