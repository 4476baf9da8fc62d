import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reason } from '../../src/decision/answer-model.ts';
import { type Decision, decide } from '../../src/decision/decide.ts';
import { type Written, written } from '../arbitraries/cases.ts';
import { sentencesIn } from '../language/answer-sentences.ts';
import { slipsInSentence } from '../language/slips.ts';
import { unwantedIn } from '../language/words.ts';
import { outcomeOf, situationOf } from './settling.ts';
import { caseFrom, context, knowledgeWith, shipped } from './shipped.ts';

const decided = (text: Written): Promise<Decision> => decide(caseFrom(text), context);

const keysOf = (id: string): Set<string> => {
  const rule = shipped.rulebook.rules.find((each) => each.id === id);
  return new Set(rule?.tests.map(({ subject, id: name, key }) => (subject === 'finding' ? name : key)));
};

const quotes = ({ rule, findings }: Reason): string[] =>
  findings.map(({ finding }) => finding).filter((finding) => !keysOf(rule).has(finding));

describe('an answer to any case', () => {
  it('is settled alike at both speeds, names in each reason what that rule looked at, and speaks plainly', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { answer, situation, outcome } = await decided(text);
        const fast = outcomeOf(situation);
        expect([fast.standing, fast.treatment, fast.best]).toEqual([
          outcome.standing,
          outcome.treatment,
          outcome.best,
        ]);
        const all = [...answer.reasons, ...answer.rather_than.flatMap(({ reasons }) => reasons)];
        expect(all.flatMap(quotes)).toEqual([]);
        for (const { text: sentence } of sentencesIn(answer))
          expect([...slipsInSentence(sentence, 'inches'), ...unwantedIn(sentence)], sentence).toEqual([]);
      }),
      { numRuns: 8 },
    );
  });

  it('is the same to the byte when it is asked again, with the rules read anew', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const again = await decide(caseFrom(text), {
          ...context,
          knowledge: knowledgeWith((rules) => rules),
        });
        const { answer } = await decided(text);
        expect(JSON.stringify(again.answer)).toBe(JSON.stringify(answer));
      }),
      { numRuns: 3 },
    );
  });
});

describe('photographs', () => {
  const fromPhotos = (text: Written): Written => ({
    ...text,
    survey: { ...(text.survey as Written), seen: 'photos' },
  });

  it('never give a firm go-ahead, whatever else is known', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { answer } = await decided(fromPhotos(text));
        if (answer.standing === 'go_ahead' || answer.standing === 'not_yet') {
          expect(answer.provisional).toBe(true);
          // While a hazard stands nobody is told when to bring the quilt in.
          const told = answer.conditions.map(({ rule }) => rule).includes('photographs-promise-nothing');
          expect(told).toBe(answer.safety.stops.length === 0);
        }
      }),
      { numRuns: 8 },
    );
  });

  it('never make cloth out to be better than it was graded', () => {
    // A grade seen in a picture is at best that grade (common practice, no source).
    fc.assert(
      fc.property(fc.constantFrom('sound', 'worn', 'weak', 'fragile', 'failing'), (grade) => {
        const survey = {
          seen: 'photos',
          families: { A: { fibre: 'cotton', fragility: grade, share: '100 %' } },
        };
        const quilt = { size: { width: '40 in', height: '40 in' } };
        const { facts } = situationOf(caseFrom({ mendwise: 1, case: 'random', quilt, survey }));
        const index = ['sound', 'worn', 'weak', 'fragile', 'failing'].indexOf(grade);
        const governing = facts['finding.governing_fragility'];
        if (grade === 'failing') expect(governing).toBe(4);
        else expect(governing ?? { lo: 0, hi: 4 }).toEqual({ lo: index, hi: 4 });
      }),
      { numRuns: 5 },
    );
  });
});
