import { describe, expect, test } from 'vitest';
import { fading } from '../../src/estimates/fading.ts';
import type { LightEstimate } from '../../src/estimates/model.ts';
import { shippedFigures } from './trade-plans.ts';

const figures = shippedFigures();
const shown = (directLight: boolean | undefined): LightEstimate => {
  const light = fading('display', directLight, figures);
  if (light === undefined) throw new Error('no light on display');
  return light;
};

describe('what light does to a quilt on display', () => {
  test('a lit wall: 0.55 million lux-hours a year, nearly four times the museum’s dose', () => {
    // worked in the trade's own notes: 150 lx for 10 h a day, against 50 lx for 8 h a day
    expect(shown(false).luxHoursPerYear.likely / 1e6).toBeCloseTo(0.55, 2);
    expect(shown(false).luxHoursPerYear.likely / (50 * 8 * 365)).toBeCloseTo(3.75, 9);
  });

  test('years to a fade are the dye’s dose over the year’s dose', () => {
    // doses by blue wool step 1, 2 and 4: CIE 157:2004, from memory; with ultraviolet 0.22, 0.6 and 3.5 million lux-hours
    const { luxHoursPerYear: dose, yearsToFade } = shown(false);
    expect(yearsToFade.withUv.low).toBeCloseTo(0.22e6 / dose.high, 9);
    expect(yearsToFade.withUv.likely).toBeCloseTo(0.6e6 / dose.likely, 9);
    expect(yearsToFade.withUv.high).toBeCloseTo(3.5e6 / dose.low, 9);
    expect(yearsToFade.uvBlocked.likely).toBeCloseTo(1e6 / dose.likely, 9);
  });

  test('a filter against ultraviolet lengthens them but does not end them', () => {
    for (const light of [true, false, undefined]) {
      const { withUv, uvBlocked } = shown(light).yearsToFade;
      for (const side of ['low', 'likely', 'high'] as const) {
        expect(uvBlocked[side]).toBeGreaterThan(withUv[side]);
        expect(Number.isFinite(uvBlocked[side])).toBe(true);
      }
    }
  });

  test('as long up as at rest doubles them', () => {
    // 6 to 12 months up, then an equal rest: shelburnemuseum.blogspot.com 2011/09; doubling is arithmetic
    const { rotated, yearsToFade } = shown(false);
    expect(rotated.share).toBe(0.5);
    expect(rotated.yearsToFade.withUv.likely).toBeCloseTo(2 * yearsToFade.withUv.likely, 9);
  });

  test('a window fades faster than a wall, and a place nobody knows spans both', () => {
    const [wall, window, unknown] = [shown(false), shown(true), shown(undefined)].map(
      (one) => one.yearsToFade.withUv,
    );
    if (wall === undefined || window === undefined || unknown === undefined) throw new Error('no years');
    expect(window.likely).toBeLessThan(wall.likely);
    expect(unknown.low).toBe(window.low);
    expect(unknown.high).toBe(wall.high);
    expect(shown(undefined).assumptions[0]).toContain('not known');
  });

  test('nothing is said of a quilt that is not on show', () => {
    for (const use of ['storage', 'guest_bed', 'regular_bed', 'child_bed', 'infant_sleep'] as const)
      expect(fading(use, true, figures)).toBeUndefined();
  });
});
