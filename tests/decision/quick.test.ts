import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decide, decideQuick } from '../../src/decision/decide.ts';
import { firstOf, rank, treatmentOfFirst } from '../../src/decision/ranking.ts';
import { written } from '../arbitraries/cases.ts';
import { outcomeOf, situationOf } from './settling.ts';
import { CASE_FILES, caseFrom, context, shippedCase } from './shipped.ts';

describe('the quick answer, judged by our own evaluator', () => {
  it.each(CASE_FILES)('is the answer of record to the last letter: %s', async (file) => {
    const quick = decideQuick(shippedCase(file), context);
    const record = await decide(shippedCase(file), context);
    expect(JSON.stringify(quick.answer)).toBe(JSON.stringify(record.answer));
  });

  it('and so it is of cases made up at random', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const quick = decideQuick(caseFrom(text), context);
        const record = await decide(caseFrom(text), context);
        expect(quick.answer).toEqual(record.answer);
      }),
      { numRuns: 25 },
    );
  });
});

describe('ranking as far as it is asked for', () => {
  it('finds the plan, the best of each treatment, and the treatment that the whole ranking has first', () => {
    fc.assert(
      fc.property(written, (text) => {
        const situation = situationOf(caseFrom(text));
        const { planOutcomes } = outcomeOf(situation);
        const ranking = rank(situation, planOutcomes).map(({ option }) => option);
        const treatmentOf = (option: number | undefined) => situation.options[option ?? -1]?.plan.treatment;
        expect(firstOf(situation, planOutcomes)).toBe(ranking[0]);
        expect(treatmentOfFirst(situation, planOutcomes)).toBe(treatmentOf(ranking[0]));
        for (const treatment of new Set(ranking.map(treatmentOf))) {
          const ofTreatment = (option: number) => treatmentOf(option) === treatment;
          expect(firstOf(situation, planOutcomes, ofTreatment)).toBe(ranking.find(ofTreatment));
        }
      }),
      { numRuns: 25 },
    );
  });
});
