import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/decision/evaluate.ts';
import { explain } from '../../src/decision/explain.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { printAnswer } from '../../src/documents/terminal/answer.ts';
import { context } from '../decision/shipped.ts';
import { flat } from '../scenarios/run.ts';
import { contradictionsIn } from './contradictions.ts';
import { textsOf } from './papers.ts';
import { quiltWith } from './quilt-with.ts';

const LETTERS = ['decline', 'refer', 'not-yet'];

describe('how firm an answer is', () => {
  it('does not say that nothing leads to a yes beside how the hazard is settled', async () => {
    for (const fragility of ['sound', 'weak']) {
      const quilt = quiltWith(['rodent waste'], fragility, 'guest_bed');
      const settled = evaluate(quilt, context);
      const answer = { ...explain(settled, context), ...(await question(settled, context)) };
      const said = printAnswer({ ...answer, would_change: [] }, quilt, { color: false, width: 100 });
      expect(said).toMatch(/Nothing but what is done about the hazard, and confirmed/);
      expect(said).not.toMatch(/Nothing realistic that is known/);
    }
  });
});

describe('one order for damp and whatever else is in it', () => {
  // Smithsonian MCI and National Park Service, Conserve O Gram 3/6, from memory: cold is for dry textiles.
  it.each(['live insects', 'traces on wool', 'smell'])('%s: dried first', async (other) => {
    for (const fragility of ['sound', 'fragile']) {
      const texts = await textsOf(quiltWith(['damp', other], fragility, 'display'));
      for (const [paper, text] of Object.entries(texts)) {
        expect(contradictionsIn(text), paper).toEqual([]);
        if (LETTERS.includes(paper))
          expect(text.replace(/\s+/g, ' ')).toMatch(/Leave the bag as it is, and ask us the same day/);
        if (LETTERS.includes(paper) && other !== 'smell')
          expect(text.replace(/\s+/g, ' ')).toMatch(/a damp (one|textile) is dried first/i);
      }
    }
  });
});

describe('a colour that runs', () => {
  it.each([[[]], [['rodent waste']], [['mould']], [['live insects']]])(
    'is never washed, whatever else stands: %s',
    async (hazards) => {
      for (const use of ['guest_bed', 'child_bed', 'storage']) {
        const quilt = quiltWith(hazards, 'sound', use);
        const { A } = quilt.survey.families ?? {};
        const families = { A: { ...A, dye_bleed: 'trace_with_water' as const } };
        const texts = await textsOf({ ...quilt, survey: { ...quilt.survey, families } });
        for (const [paper, text] of Object.entries(texts))
          if (paper === 'terminal' || LETTERS.includes(paper) || paper === 'care')
            expect(text, `${use}, ${paper}`).toMatch(/never wash it|do not wash it/i);
      }
    },
  );
});

describe('a claim of somebody else', () => {
  it('is handled as they say: nobody washes, shows or mends it, and no care sheet says how', async () => {
    const quilt = quiltWith([], 'sound', 'guest_bed');
    const findings = { ...quilt.survey.findings, claim_of_others: true };
    const texts = await textsOf({ ...quilt, survey: { ...quilt.survey, findings } });
    expect(Object.keys(texts)).not.toContain('care');
    expect(texts['not-yet']).toMatch(/leave it wrapped as it is/);
    expect(texts['not-yet']).not.toMatch(/Lay it flat/);
  });
});

describe('a test that finds the hazard', () => {
  const tested = (found: object, ...more: object[]) => ({
    treated: [{ ...TESTED, ...found }, ...more.map((each) => ({ ...TESTED, ...each }))],
  });
  const TESTED = {
    hazard: 'poison',
    how: 'laboratory report 11',
    by: 'laboratory',
    on: '2026-03-10',
    confirmed_by: 'report 11',
  };
  const stops = (rest: object, use = 'child_bed') =>
    evaluate(quiltWith(['poison'], 'sound', use, rest), context).outcome.standingRules.map(({ id }) => id);

  it('lifts nothing: to be tested is not to be made harmless', () => {
    expect(stops(tested({ found: 'harmless' }))).toEqual([]);
    expect(stops(tested({ found: 'present' }))).toEqual(['poison-that-was-found-is-referred']);
    // A later word counts, either way; and a look that notes it after the test asks for another.
    expect(stops(tested({ found: 'harmless' }, { found: 'present', on: '2026-03-20' }))).not.toEqual([]);
    expect(stops(tested({ found: 'present' }, { found: 'harmless', on: '2026-03-20' }))).toEqual([]);
  });

  it('of which an older file does not say what was found lifts nothing either', () => {
    expect(stops(tested({}))).toEqual(['old-green-or-pesticide-is-tested']);
  });

  it('of any other hazard lifts nothing', () => {
    const present = { hazard: 'damp', found: 'present' };
    expect(
      evaluate(quiltWith(['damp'], 'sound', 'guest_bed', tested(present)), context).outcome.standing,
    ).toBe('not_yet');
  });

  it.each(['child_bed', 'guest_bed', 'display', 'storage'])(
    'keeps the cautions in every paper: %s',
    async (use) => {
      const texts = await textsOf(quiltWith(['poison'], 'sound', use, tested({ found: 'present' })));
      for (const name of ['care', 'work', 'estimate']) expect(Object.keys(texts)).not.toContain(name);
      for (const [name, text] of Object.entries(texts))
        expect(flat(text), name).toMatch(/nitrile gloves.*conservator|conservator.*nitrile gloves/i);
    },
  );
});
