import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { MaterialsEstimate } from '../../src/estimates/model.ts';
import { defaultStudio, price, type StudioSettings } from '../../src/estimates/price.ts';
import { exactly, type Range } from '../../src/quantities/range.ts';
import { patchwork, shippedFigures, spread } from './trade-plans.ts';

const figures = shippedFigures();
const studio: StudioSettings = {
  ...defaultStudio(figures),
  ratePerHour: 40,
  minimum: 100,
  rounding: 10,
  deposit: 0.5,
};
const bought = (...costs: Range[]): MaterialsEstimate => ({
  items: costs.map((cost) => ({ what: 'cloth', amount: 1, unit: 'yd', cost })),
});

describe('a price', () => {
  test('is hours with a fifth on top at the rate, and materials', () => {
    // The trade's formula: hours × rate × 1.2 + materials. 50 × 40 × 1.2 + 85 = 2,485, to the nearest ten 2,490.
    const quote = price(spread, exactly(50), bought(exactly(60), exactly(25)), studio, figures);
    expect(quote.likely).toBe(2490);
    expect(quote.materials).toEqual(exactly(85));
  });

  test('below the floor the studio works under its own rate', () => {
    const quote = price(spread, exactly(50), bought(exactly(85)), studio, figures);
    expect(quote.floor).toBe(2090);
    expect((quote.floor - 85) / 50).toBeGreaterThanOrEqual(40);
  });

  test('the floor goes by average hours and materials, not by the best case', () => {
    const quote = price(
      spread,
      { low: 20, likely: 50, high: 90 },
      bought({ low: 10, likely: 80, high: 300 }),
      studio,
      figures,
    );
    // 50 h are an average already; 10, 80 and 300 of materials average 0.3 × 10 + 0.4 × 80 + 0.3 × 300 = 125 (Swanson).
    expect(quote.floor).toBe(2130);
  });

  test('carries the contingency in the sum asked for, not in what may come of it', () => {
    // 40 to 70 h at 40 are 1,600 to 2,800; asked for are 50 × 40 × 1.2 = 2,400. A fifth on top of the longest would count
    // the unforeseen twice, and on top of the shortest would call it certain.
    const quote = price(spread, { low: 40, likely: 50, high: 70 }, bought(), studio, figures);
    expect([quote.low, quote.likely, quote.high]).toEqual([1600, 2400, 2800]);
  });

  test('of leaving alone is the price of advice: no contingency, no deposit', () => {
    // 3 h at 40, and nothing unforeseen can come of it.
    const left = { ...spread, treatment: 'leave' } as const;
    const quote = price(left, exactly(3), bought(), studio, figures);
    expect([quote.low, quote.likely, quote.high, quote.deposit]).toEqual([120, 120, 120, 0]);
  });

  test('asks half of it before work begins', () => {
    expect(price(spread, exactly(50), bought(exactly(85)), studio, figures).deposit).toBe(1250);
  });

  test('is never below the smallest job, and then the deposit goes by that', () => {
    const quote = price(spread, exactly(1), bought(), studio, figures);
    expect([quote.low, quote.likely, quote.high]).toEqual([100, 100, 100]);
    expect(quote.deposit).toBe(50);
  });

  test('has a hold point exactly where the quilt is opened', () => {
    expect(price(patchwork, exactly(50), bought(), studio, figures).holdPoint).toBe(true);
    expect(price(spread, exactly(50), bought(), studio, figures).holdPoint).toBe(false);
    // Once somebody has looked inside, this is the second stage itself.
    expect(price(patchwork, exactly(50), bought(), studio, figures, true).holdPoint).toBe(false);
  });

  test('carries the studio’s currency', () => {
    expect(price(spread, exactly(9), bought(), { ...studio, currency: 'EUR' }, figures).currency).toBe('EUR');
  });

  test('keeps its order, its rounding, and the floor below the likely price', () => {
    const range = fc
      .tuple(
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
      )
      .map(([low, a, b]) => ({ low, likely: low + a, high: low + a + b }));
    fc.assert(
      fc.property(
        range,
        fc.array(range, { maxLength: 5 }),
        fc.constantFrom(1, 5, 10, 50),
        (hours, costs, rounding) => {
          const quote = price(spread, hours, bought(...costs), { ...studio, rounding }, figures);
          expect(quote.low).toBeLessThanOrEqual(quote.likely);
          expect(quote.likely).toBeLessThanOrEqual(quote.high);
          expect(quote.deposit).toBeLessThanOrEqual(quote.likely);
          expect(quote.floor).toBeLessThanOrEqual(quote.likely + rounding);
          if (quote.likely > studio.minimum) expect(quote.likely % rounding).toBeCloseTo(0, 9);
        },
      ),
    );
  });
});

test('a new studio starts from the figures, in inches', () => {
  expect(defaultStudio(figures)).toEqual({
    currency: '$',
    ratePerHour: figures.number('studio.rate'),
    minimum: figures.number('studio.minimum'),
    rounding: figures.number('studio.rounding'),
    deposit: figures.number('studio.deposit'),
    units: 'inches',
  });
});
