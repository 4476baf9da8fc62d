import { expect, test } from 'vitest';
import { evaluate } from '../../src/decision/evaluate.ts';
import { caseOf, context } from './shipped.ts';

const dated = (line: string) =>
  caseOf(
    'dated.yaml',
    `mendwise: 1
case: dated
quilt: { size: { width: 40 in, height: 40 in } }
survey:
  seen: in hand
  findings: { ${line} }
`,
  );

const weeksOn = (line: string, day: string): unknown =>
  evaluate(dated(line), { ...context, day }).situation.facts['finding.deadline_weeks'];

test('a deadline is a date: the weeks that are left follow from the day, and do not go stale', () => {
  expect(weeksOn('deadline: 2026-12-24', '2026-12-10')).toBe(2);
  expect(weeksOn('deadline: 2026-12-24', '2026-11-29')).toBe(3.5);
});

test('a day that is close or has passed is not taken for no deadline at all', () => {
  expect(weeksOn('deadline: 2026-12-24', '2026-12-23')).toBe(0.1);
  expect(weeksOn('deadline: 2026-12-24', '2027-01-23')).toBe(0.1);
});

test('weeks, as older files have them, are read as before, and a date outweighs them', () => {
  expect(weeksOn('deadline_weeks: 8', '2026-12-10')).toBe(8);
  expect(weeksOn('deadline_weeks: 8, deadline: 2026-12-24', '2026-12-10')).toBe(2);
});

test('what is no date is refused in its place', () => {
  expect(() => dated('deadline: Christmas')).toThrow(/deadline: "Christmas" is not a date/);
  expect(() => dated('deadline: 2026-02-30')).toThrow(/is not a date/);
});
