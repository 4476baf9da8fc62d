import { describe, expect, it } from 'vitest';
import type { Followup, QuiltCase } from '../../src/casebook/model.ts';
import { dueFollowup, monthsAfter, repairOutcome } from '../../src/experience/due.ts';
import { court, demoCase } from './court.ts';

const { figures } = court.knowledge;
const { followups: _followups, completed: _completed, ...bare } = demoCase('kiln-yard-squares');
const done = (...followups: readonly Followup[]): QuiltCase => ({
  ...bare,
  completed: { on: '2024-01-31' },
  followups,
});
const due = (quiltCase: QuiltCase, today: string) => dueFollowup(quiltCase, today, figures);

describe('follow-ups that are due', () => {
  it('fall at 6, 12 and 24 months, on the last day where the month is shorter', () => {
    expect(monthsAfter('2024-01-31', 1)).toBe('2024-02-29');
    expect(monthsAfter('2023-01-31', 1)).toBe('2023-02-28');
    expect(monthsAfter('2024-08-31', 6)).toBe('2025-02-28');
    expect(monthsAfter('2024-01-31', 24)).toBe('2026-01-31');
    expect(due(done(), '2024-07-30')).toBeUndefined();
    expect(due(done(), '2024-07-31')).toMatchObject({ months: 6, on: '2024-07-31', missed: 0 });
    expect(due(done(), '2026-02-01')).toMatchObject({ months: 24, on: '2026-01-31', missed: 2 });
  });

  it('are answered by one made up to a month early', () => {
    expect(due(done({ on: '2024-06-30' }), '2024-08-01')).toBeUndefined();
    expect(due(done({ on: '2024-06-29' }), '2024-08-01')?.months).toBe(6);
    expect(due(done({ on: '2024-07-31' }), '2025-02-01')).toMatchObject({ months: 12, missed: 0 });
  });

  it('are none before the work is done, nor after repair was found due', () => {
    expect(due(bare, '2030-01-01')).toBeUndefined();
    expect(due(done({ on: '2024-07-31', repair_due: true }), '2026-06-01')).toBeUndefined();
  });
});

describe('what became of a repair', () => {
  it('is an interval between the last whole look and the first that found it due', () => {
    const outcome = repairOutcome(
      done({ on: '2024-07-31', repair_due: false }, { on: '2025-01-31', repair_due: true }),
    );
    expect(outcome?.wholeAt).toBeCloseTo(182 / 365.25, 10);
    expect(outcome?.dueAt).toBeCloseTo(366 / 365.25, 10);
  });

  it('takes no openings anywhere for whole, and openings alone for neither', () => {
    const none = { old_cloth: 0, old_joins: 0, junctions: 0, new_work: 0 };
    expect(repairOutcome(done({ on: '2025-01-31', openings: none }))?.wholeAt).toBeCloseTo(366 / 365.25, 10);
    expect(repairOutcome(done({ on: '2025-01-31', openings: { ...none, old_joins: 3 } }))).toBeUndefined();
    expect(repairOutcome(done({ on: '2025-01-31', openings: { old_joins: 0 } }))).toBeUndefined();
  });

  it('is not known before anybody has looked', () => {
    expect(repairOutcome(done())).toBeUndefined();
    expect(repairOutcome(bare)).toBeUndefined();
  });
});
