import { expect, test } from 'vitest';
import { readDate } from '../../src/quantities/date.ts';

// Leap years by the Gregorian rule (ISO 8601 calendar): 2000 and 2024 are, 1900 and 2026 are not.
test.each(['2026-03-05', '2024-02-29', '2000-02-29', '2026-12-31'])('%s is a day', (text) => {
  expect(readDate(text)).toBe(text);
});

test.each([
  '2026-02-29',
  '1900-02-29',
  '2026-13-01',
  '2026-00-10',
  '2026-04-31',
  '2026-04-00',
  '5.3.2026',
  '2026-3-5',
  '',
])('%j is not', (text) => {
  expect(readDate(text)).toBeUndefined();
});
