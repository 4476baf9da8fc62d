import type { Use } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { type Range, times } from '../quantities/range.ts';
import { annualDose, type Lighting, lightingAt, rotationShare, yearsToFade } from './light.ts';
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
