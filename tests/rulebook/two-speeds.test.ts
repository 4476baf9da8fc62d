import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RulesRun } from '../../src/rulebook/engine.ts';
import { evaluateRule, evaluateWithoutPlan, traceRule } from '../../src/rulebook/evaluate.ts';
import { facts, rule, rules } from '../arbitraries/rules.ts';
import { FULL } from '../tiers.ts';

/** The engine and the fast evaluator must mean the same, or sweeps would explain a decision nobody took. */
describe('the engine and the fast evaluator', () => {
  it('give the same trace, part for part, for random rules on random facts', async () => {
    await fc.assert(
      fc.asyncProperty(rules(true), facts, async (some, known) => {
        const traces = await new RulesRun(some).run(known);
        expect([...traces.keys()]).toEqual(some.map(({ id }) => id));
        for (const each of some) expect(traces.get(each.id)).toEqual(traceRule(each, known));
      }),
      { numRuns: FULL ? 2500 : 300 },
    );
  });

  it('agree on the verdict whether or not a trace is kept', () => {
    fc.assert(
      fc.property(rule(true), facts, (each, known) => {
        expect(evaluateRule(each, known)).toBe(traceRule(each, known).truth);
      }),
      { numRuns: FULL ? 3000 : 500 },
    );
  });

  it('runs one after another leave nothing behind for the next', async () => {
    await fc.assert(
      fc.asyncProperty(rules(true), facts, facts, async (some, first, second) => {
        const run = new RulesRun(some);
        await run.run(first);
        const again = await run.run(second);
        for (const each of some) expect(again.get(each.id)).toEqual(traceRule(each, second));
      }),
      { numRuns: 300 },
    );
  });
});

describe('a verdict reached before any plan is looked at', () => {
  it('holds for every plan', () => {
    fc.assert(
      fc.property(rule(true), facts, facts, (each, quilt, plan) => {
        const ofPlan = (key: string): boolean => key.startsWith('plan.');
        const bare = Object.fromEntries(Object.entries(quilt).filter(([key]) => !ofPlan(key)));
        const whatever = evaluateWithoutPlan(each, bare);
        if (whatever === undefined) return;
        const withPlan = {
          ...bare,
          ...Object.fromEntries(Object.entries(plan).filter(([key]) => ofPlan(key))),
        };
        expect(evaluateRule(each, withPlan)).toBe(whatever);
      }),
      { numRuns: FULL ? 3000 : 500 },
    );
  });
});
