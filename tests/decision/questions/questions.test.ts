import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../../src/casebook/model.ts';
import { sameRecommendation } from '../../../src/decision/answer-model.ts';
import { decide } from '../../../src/decision/decide.ts';
import { evaluate } from '../../../src/decision/evaluate.ts';
import { holdsIn, question, variablesOf } from '../../../src/decision/questions/ask.ts';
import { checkNext, findCounterfactuals } from '../../../src/decision/questions/counterfactuals.ts';
import { VariantEvaluator } from '../../../src/decision/questions/variable.ts';
import { written } from '../../arbitraries/cases.ts';
import { FULL, sample } from '../../tiers.ts';
import { CASE_FILES, caseFrom, context, shipped, shippedCase } from '../shipped.ts';

const variants = (): VariantEvaluator => new VariantEvaluator(context);
const recommendationOf = async (quiltCase: QuiltCase) => (await decide(quiltCase, context)).answer;

describe('what would change an answer', () => {
  it('flips what it says it flips, by the decision of record, and one step back does not', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { alone, variables } = variablesOf(caseFrom(text), context);
        const base = await recommendationOf(alone);
        for (const { turns, verdict } of findCounterfactuals(alone, variables, variants())) {
          const changed = turns.reduce((sofar, { variable, value }) => variable.set(sofar, value), alone);
          expect(sameRecommendation(await recommendationOf(changed), verdict)).toBe(true);
          expect(sameRecommendation(verdict, base)).toBe(false);
          const [turn] = turns;
          if (turns.length > 1 || turn?.variable.scale === undefined || typeof turn.value !== 'number')
            continue;
          const { current, scale, set } = turn.variable;
          const towards = Math.sign(Number(current) - turn.value) * scale.step;
          const back = Math.round((turn.value + towards) * 1e6) / 1e6;
          if (Math.abs(back - Number(current)) < scale.step / 2) continue;
          expect(
            sameRecommendation(await recommendationOf(set(alone, back)), base),
            `${turn.variable.id} at ${back}`,
          ).toBe(true);
        }
      }),
      { numRuns: FULL ? 25 : 2, seed: 41 },
    );
  });

  it('tells the client that a gentler use would let us say yes to a quilt declined for a bunk bed', async () => {
    const bunk = shippedCase('bunk-bed-scraps.yaml');
    expect((await recommendationOf(bunk)).standing).toBe('decline');
    const { would_change } = await question(evaluate(bunk, context), context);
    const yes = (would_change ?? []).filter(
      ({ who, standing }) => who === 'client' && standing === 'go_ahead',
    );
    const uses = yes.flatMap(({ changes }) => changes.filter(({ finding }) => finding === 'intended_use'));
    expect(uses.map(({ to }) => to)).toContain('on display');
  });

  it('finds the share of lost units at which an answer turns, to the unit', () => {
    // 64 units: with 32 lost, half is gone and a rebuild is still offered; the 33rd is too many.
    const quilt = (lost: number) =>
      caseFrom({
        mendwise: 1,
        case: 'random',
        client: { intended_use: 'guest_bed', owners_agree: 'yes' },
        quilt: {
          size: { width: '72 in', height: '72 in' },
          layout: { kind: 'edge to edge', rows: 8, columns: 8, finished: '9 in x 9 in' },
          batting: { kind: 'none' },
          backing: { kind: 'own', fragility: 'sound', damaged: '0 %' },
          joining: { kind: 'none' },
        },
        survey: {
          seen: 'in hand',
          families: { A: { fragility: 'sound', fibre: 'cotton', share: '100 %' } },
          counts: { of: 64, lost },
          joins: { inspected: 112, open: 4, thread: 4, cloth: 0, allowance: 0 },
        },
      });
    const { alone, variables } = variablesOf(quilt(30), context);
    const found = findCounterfactuals(alone, variables, variants()).find(
      ({ turns }) => turns[0]?.variable.id === 'lost' && turns[0].value === 33,
    );
    expect(found?.verdict.standing).toBe('decline');
  });
});

describe('what to look at next', () => {
  it('leads where the decision of record goes, and leaves out only what leads nowhere', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { alone, variables } = variablesOf(caseFrom(text), context);
        const base = await recommendationOf(alone);
        const next = checkNext(alone, variables, variants());
        for (const variable of variables.filter(({ current }) => current === undefined)) {
          const leads = [];
          for (const { value } of variable.likely) {
            const verdict = await recommendationOf(variable.set(alone, value));
            if (sameRecommendation(verdict, base)) continue;
            leads.push({
              value: variable.say(value),
              standing: verdict.standing,
              treatment: verdict.treatment,
            });
          }
          expect(
            next.find(({ finding }) => finding === variable.id)?.could_lead_to ?? [],
            variable.id,
          ).toEqual(leads);
        }
      }),
      { numRuns: FULL ? 25 : 1, seed: 7 },
    );
  });

  it('is ranked by power over the answer, the cheaper first among equals', () => {
    const { alone, variables } = variablesOf(shippedCase('message-with-pictures.yaml'), context);
    const next = checkNext(alone, variables, variants());
    const costOf = (id: string): number =>
      variables.find((variable) => variable.id === id)?.cost ?? Number.NaN;
    const pairs = next.slice(1).map((after, index) => [next[index], after] as const);
    let equals = 0;
    for (const [before, after] of pairs) {
      if (before === undefined) continue;
      expect(before.power).toBeGreaterThanOrEqual(after.power);
      if (before.power > after.power) continue;
      equals += 1;
      expect(costOf(before.finding)).toBeLessThanOrEqual(costOf(after.finding));
    }
    expect(equals).toBeGreaterThan(0);
    expect(new Set(next.map(({ finding }) => costOf(finding))).size).toBeGreaterThan(1);
  });

  it('leads to answers other than the present one', async () => {
    for (const file of sample(CASE_FILES.slice(0, 6), 3)) {
      const quiltCase = shippedCase(file);
      const answer = await recommendationOf(quiltCase);
      const { alone, variables } = variablesOf(quiltCase, context);
      for (const { could_lead_to } of checkNext(alone, variables, variants())) {
        expect(could_lead_to.length).toBeGreaterThan(0);
        for (const lead of could_lead_to) expect(sameRecommendation(lead, answer)).toBe(false);
      }
    }
  });
});

describe('how firm an answer is', () => {
  it('is a count of a hundred readings that adds up, and the same every time', () => {
    for (const file of sample(CASE_FILES.slice(0, 8), 4)) {
      const { alone, variables } = variablesOf(shippedCase(file), context);
      const first = holdsIn(alone, variables, variants(), shipped.figures);
      expect(first.of).toBe(100);
      expect(first.same + first.otherwise.reduce((sum, { times }) => sum + times, 0)).toBe(100);
      expect(holdsIn(alone, variables, variants(), shipped.figures)).toEqual(first);
    }
  });

  it('is less than certain where a grade lies beside a limit', () => {
    const { alone, variables } = variablesOf(shippedCase('tea-stained-chain.yaml'), context);
    const { same, otherwise } = holdsIn(alone, variables, variants(), shipped.figures);
    expect(same).toBeLessThan(100);
    expect(otherwise.length).toBeGreaterThan(0);
  });
});
