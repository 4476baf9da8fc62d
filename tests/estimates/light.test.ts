import { describe, expect, test } from 'vitest';
import { lightingAt, rotationShare, yearsToFade } from '../../src/estimates/fading.ts';
import { exactly } from '../../src/quantities/range.ts';
import { shippedFigures } from './trade-plans.ts';

const figures = shippedFigures();
const museum = { lux: exactly(50), hoursPerYear: exactly(3000), uvBlocked: true, share: 1 };

describe('years until a fade is noticed', () => {
  test('a dye nobody has measured gets a range over the sensitive steps, not a rating', () => {
    const unknown = yearsToFade(museum, undefined, figures);
    expect(unknown.low).toBe(yearsToFade(museum, 1, figures).low);
    expect(unknown.high).toBe(yearsToFade(museum, 4, figures).high);
    expect(unknown.high / unknown.low).toBeGreaterThan(10);
  });

  test('ultraviolet shortens them for every step', () => {
    for (const step of [1, 2, 3, 4, 5, 6, 7, 8] as const) {
      expect(yearsToFade({ ...museum, uvBlocked: false }, step, figures).likely).toBeLessThan(
        yearsToFade(museum, step, figures).likely,
      );
    }
  });

  test('a place that was not measured gives a range, strongest light first', () => {
    const home = lightingAt('home_wall', figures, { uvBlocked: false, share: 1 });
    const years = yearsToFade(home, 2, figures);
    // 0.6 million lx h over 400 lx × 14 h, 150 lx × 10 h and 50 lx × 6 h, 365 days.
    expect(years.low).toBeCloseTo(0.6e6 / (400 * 14 * 365), 9);
    expect(years.likely).toBeCloseTo(0.6e6 / (150 * 10 * 365), 9);
    expect(years.high).toBeCloseTo(0.6e6 / (50 * 6 * 365), 9);
  });

  test('in the dark there is no end', () => {
    expect(yearsToFade({ ...museum, share: 0 }, 1, figures).likely).toBe(Number.POSITIVE_INFINITY);
  });
});

test('a rotation needs some time in it', () => {
  expect(rotationShare(6, 18)).toBe(0.25);
  expect(rotationShare(0, 12)).toBe(0);
  expect(() => rotationShare(0, 0)).toThrow(RangeError);
  expect(() => rotationShare(-1, 12)).toThrow(RangeError);
});
