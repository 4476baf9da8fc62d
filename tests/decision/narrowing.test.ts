import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ActiveRules, evaluateRules, type RuleTruths } from '../../src/decision/precedence.ts';
import type { Situation } from '../../src/decision/situation.ts';
import { collectVotes } from '../../src/decision/votes.ts';
import { type Rule, STAGES } from '../../src/rulebook/model.ts';
import { written } from '../arbitraries/cases.ts';
import { RULES, situationOf } from './settling.ts';
import { caseFrom } from './shipped.ts';

/** Plans that these rules remove, by their place in the situation. */
function removed(situation: Situation, rules: readonly Rule[], truths: RuleTruths): Set<number> {
  const { plans } = collectVotes(situation, rules, new ActiveRules(rules, truths));
  return new Set(
    plans.flatMap(({ removals }, index) => (removals.some(({ truth }) => truth === true) ? [index] : [])),
  );
}

const upTo = (stage: number): Rule[] =>
  RULES.filter(({ group }) => STAGES.slice(0, stage).some((each) => each === group));

const removes = ({ effects }: Rule): boolean =>
  effects.ruleOut !== undefined || effects.callFor !== undefined;

describe('each stage narrows what the stages before it left', () => {
  it('and none brings a plan back: with one stage more, no plan that was removed is there again', () => {
    fc.assert(
      fc.property(written, (text) => {
        const situation = situationOf(caseFrom(text));
        const truths = evaluateRules(situation);
        let before = new Set<number>();
        for (let stage = 1; stage <= STAGES.length; stage += 1) {
          const after = removed(situation, upTo(stage), truths);
          for (const plan of before) expect(after.has(plan), `after ${STAGES[stage - 1]}`).toBe(true);
          before = after;
        }
        expect(before).toEqual(removed(situation, RULES, truths));
      }),
      { numRuns: 30 },
    );
  });

  it('because no rule that removes plans gives way to a later stage', () => {
    const stageOf = (id: string): number =>
      STAGES.findIndex((stage) => stage === RULES.find((rule) => rule.id === id)?.group);
    for (const rule of RULES.filter(removes))
      for (const other of rule.yieldsTo)
        expect(stageOf(other), `${rule.id} yields to ${other}`).toBeLessThanOrEqual(stageOf(rule.id));
  });

  it('and a rule that prefers or avoids removes nothing', () => {
    fc.assert(
      fc.property(written, (text) => {
        const situation = situationOf(caseFrom(text));
        const truths = evaluateRules(situation);
        // Whatever weighs is taken away, unless a rule that removes may give way to it.
        const yieldedTo = new Set(RULES.filter(removes).flatMap(({ yieldsTo }) => yieldsTo));
        const without = RULES.filter((rule) => removes(rule) || yieldedTo.has(rule.id));
        expect(removed(situation, without, truths)).toEqual(removed(situation, RULES, truths));
      }),
      { numRuns: 20 },
    );
  });
});
