import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Standing } from '../../src/rulebook/model.ts';
import { type Written, written } from '../arbitraries/cases.ts';
import { outcomeOf, plansLeft, plansRemoved, situationOf } from './settling.ts';
import { caseFrom } from './shipped.ts';

/** Gravest last. */
const GRAVITY: readonly Standing[] = ['go_ahead', 'not_yet', 'refer', 'decline'];
const graver = (a: Standing, b: Standing): Standing => (GRAVITY.indexOf(a) >= GRAVITY.indexOf(b) ? a : b);

const part = (text: Written, name: string): Written => (text[name] ?? {}) as Written;

const withFindings = (text: Written, more: Written): Written => {
  const survey = part(text, 'survey');
  return { ...text, survey: { ...survey, findings: { ...part(survey, 'findings'), ...more } } };
};

const withBudget = (text: Written, budget: number | undefined): Written => {
  const { budget: _, ...client } = part(text, 'client');
  return { ...text, client: budget === undefined ? client : { ...client, budget } };
};

const settled = (text: Written) => {
  const situation = situationOf(caseFrom(text));
  return { situation, outcome: outcomeOf(situation) };
};

describe('the standing', () => {
  /** One finding each that sets one standing whatever else is known. */
  const SETS: readonly (readonly [finding: string, standing: Standing])[] = [
    ['sewage_or_fuel', 'decline'],
    ['museum_quality', 'refer'],
    ['live_pests', 'not_yet'],
  ];

  it.each(SETS)('%s: %s outranks what is less grave and gives way to what is graver', (finding, standing) => {
    fc.assert(
      fc.property(written, (text) => {
        const without = settled(withFindings(text, { [finding]: 'no' })).outcome;
        const { outcome } = settled(withFindings(text, { [finding]: 'yes' }));
        expect(outcome.standing).toBe(graver(without.standing, standing));
      }),
      { numRuns: 8 },
    );
  });

  it('of three at once is the gravest, and the others are kept as reasons', () => {
    fc.assert(
      fc.property(written, (text) => {
        const all = { sewage_or_fuel: 'yes', museum_quality: 'yes', live_pests: 'yes' };
        const { outcome } = settled(withFindings(text, all));
        expect(outcome.standing).toBe('decline');
        const order = outcome.standingRules.map(({ effects }) =>
          GRAVITY.indexOf(effects.stand ?? 'go_ahead'),
        );
        expect(order).toEqual([...order].sort((a, b) => b - a));
        expect(outcome.standingRules.map(({ id }) => id)).toEqual(
          expect.arrayContaining([
            'sewage-or-fuel-is-declined',
            'museum-quality',
            'live-pests-are-quarantined',
          ]),
        );
      }),
      { numRuns: 6 },
    );
  });

  it('names a treatment when it goes ahead or waits, and none when it refers or declines', () => {
    fc.assert(
      fc.property(written, (text) => {
        const { outcome } = settled(text);
        const offered = outcome.standing === 'go_ahead' || outcome.standing === 'not_yet';
        expect(outcome.treatment !== null).toBe(offered);
      }),
      { numRuns: 10 },
    );
  });
});

describe('a budget', () => {
  it('never changes the standing, removes a plan, or puts another first', () => {
    fc.assert(
      fc.property(written, fc.constantFrom(0, 1, 500, 1_000_000), (text, budget) => {
        const free = settled(withBudget(text, undefined));
        const bound = settled(withBudget(text, budget));
        expect(bound.outcome.standing).toBe(free.outcome.standing);
        expect(plansRemoved(bound.situation, bound.outcome)).toEqual(
          plansRemoved(free.situation, free.outcome),
        );
        expect(plansLeft(bound.situation, bound.outcome)).toEqual(plansLeft(free.situation, free.outcome));
      }),
      { numRuns: 10 },
    );
  });
});
