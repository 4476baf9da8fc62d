import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../../src/casebook/model.ts';
import { decide } from '../../../src/decision/decide.ts';
import { evaluate } from '../../../src/decision/evaluate.ts';
import { knobsOf, question } from '../../../src/decision/questions/ask.ts';
import { checkNext } from '../../../src/decision/questions/check-next.ts';
import { holdsIn } from '../../../src/decision/questions/holds-in.ts';
import { Trials } from '../../../src/decision/questions/trials.ts';
import { flips } from '../../../src/decision/questions/would-change.ts';
import { sameVerdict } from '../../../src/decision/verdict.ts';
import { written } from '../../arbitraries/cases.ts';
import { CASE_FILES, caseFrom, context, shipped, shippedCase } from '../shipped.ts';

const trials = (): Trials => new Trials(context);
const verdictOf = async (quiltCase: QuiltCase) => (await decide(quiltCase, context)).answer;

describe('what would change an answer', () => {
  it('flips what it says it flips, by the decision of record, and one step back does not', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        const { alone, knobs } = knobsOf(caseFrom(text), context);
        const base = await verdictOf(alone);
        for (const { turns, verdict } of flips(alone, knobs, trials())) {
          const changed = turns.reduce((sofar, { knob, value }) => knob.set(sofar, value), alone);
          expect(sameVerdict(await verdictOf(changed), verdict)).toBe(true);
          expect(sameVerdict(verdict, base)).toBe(false);
          const [turn] = turns;
          if (turns.length > 1 || turn?.knob.scale === undefined || typeof turn.value !== 'number') continue;
          const { current, scale, set } = turn.knob;
          const towards = Math.sign(Number(current) - turn.value) * scale.step;
          const back = Math.round((turn.value + towards) * 1e6) / 1e6;
          if (Math.abs(back - Number(current)) < scale.step / 2) continue;
          expect(sameVerdict(await verdictOf(set(alone, back)), base), `${turn.knob.id} at ${back}`).toBe(
            true,
          );
        }
      }),
      { numRuns: 25, seed: 41 },
    );
  });

  it('tells the client what would let us say yes to a worn-out quilt on a bed', async () => {
    const { would_change } = await question(evaluate(shippedCase('one-weak-print.yaml'), context), context);
    expect(would_change?.length).toBeGreaterThan(0);
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
    const { alone, knobs } = knobsOf(quilt(30), context);
    const found = flips(alone, knobs, trials()).find(
      ({ turns }) => turns[0]?.knob.id === 'lost' && turns[0].value === 33,
    );
    expect(found?.verdict.standing).toBe('decline');
  });
});

describe('what to look at next', () => {
  it('is shorter or the same once something is known', () => {
    fc.assert(
      fc.property(written, fc.nat(), (text, pick) => {
        const { alone, knobs } = knobsOf(caseFrom(text), context);
        const before = checkNext(alone, knobs, trials());
        const [first] = before;
        const knob = knobs.find(({ id }) => id === first?.finding);
        const value = knob?.likely[pick % Math.max(1, knob.likely.length)]?.value;
        if (knob === undefined || value === undefined) return;
        const known = knobsOf(knob.set(alone, value), context);
        const after = checkNext(known.alone, known.knobs, trials());
        expect(after.map(({ finding }) => finding)).not.toContain(first?.finding);
      }),
      { numRuns: 25, seed: 7 },
    );
  });

  it('is ranked by power over the answer, the cheaper first among equals', async () => {
    const { check_next: next = [] } = await question(
      evaluate(shippedCase('message-with-pictures.yaml'), context),
      context,
    );
    const powers = (next ?? []).map(({ power }) => power);
    expect(powers).toEqual([...powers].sort((a, b) => b - a));
  });

  it('leads to answers other than the present one', async () => {
    for (const file of CASE_FILES.slice(0, 6)) {
      const quiltCase = shippedCase(file);
      const answer = await verdictOf(quiltCase);
      const { alone, knobs } = knobsOf(quiltCase, context);
      for (const { could_lead_to } of checkNext(alone, knobs, trials())) {
        expect(could_lead_to.length).toBeGreaterThan(0);
        for (const lead of could_lead_to) expect(sameVerdict(lead, answer)).toBe(false);
      }
    }
  });
});

describe('how firm an answer is', () => {
  it('is a count of a hundred readings that adds up, and the same every time', () => {
    for (const file of CASE_FILES.slice(0, 8)) {
      const { alone, knobs } = knobsOf(shippedCase(file), context);
      const first = holdsIn(alone, knobs, trials(), shipped.figures);
      expect(first.of).toBe(100);
      expect(first.same + first.otherwise.reduce((sum, { times }) => sum + times, 0)).toBe(100);
      expect(holdsIn(alone, knobs, trials(), shipped.figures)).toEqual(first);
    }
  });

  it('is less than certain where a grade lies beside a limit', () => {
    const { alone, knobs } = knobsOf(shippedCase('tea-stained-chain.yaml'), context);
    const { same, otherwise } = holdsIn(alone, knobs, trials(), shipped.figures);
    expect(same).toBeLessThan(100);
    expect(otherwise.length).toBeGreaterThan(0);
  });
});
