import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sameRecommendation } from '../../../src/decision/answer-model.ts';
import { evaluate } from '../../../src/decision/evaluate.ts';
import { question, variablesOf } from '../../../src/decision/questions/ask.ts';
import { FABRICS, QuestionRanker } from '../../../src/decision/questions/next-question.ts';
import { VariantEvaluator } from '../../../src/decision/questions/variable.ts';
import { FULL, sample } from '../../tiers.ts';
import { CASE_FILES, caseFrom, context, shipped, shippedCase } from '../shipped.ts';

const bearings = () => new QuestionRanker(context);

const EVERYTHING = new Set([
  ...shipped.vocabulary.findings.keys(),
  ...['A', 'B', 'C', 'D', 'E', 'F'].flatMap((letter) =>
    [...shipped.vocabulary.family.keys()].map((id) => `${letter}.${id}`),
  ),
  'joins.open',
  'joins.cloth',
  'lost',
  FABRICS,
]);

const bare = { mendwise: 1, case: 'random', quilt: { size: { width: '60 in', height: '80 in' } } };

describe('what an interview should ask next', () => {
  it('asks of the cloth first where no fabric has been told', () => {
    const quilt = caseFrom({ ...bare, survey: { seen: 'in hand' } });
    expect(bearings().on(quilt, EVERYTHING)[0]).toBe(FABRICS);
  });

  it('asks nothing more of a quilt that is declined whatever else is found', () => {
    const quilt = caseFrom({
      ...bare,
      survey: { seen: 'in hand', findings: { sewage_or_fuel: true } },
    });
    expect(bearings().on(quilt, EVERYTHING)).toEqual([]);
    expect(bearings().verdict(quilt)).toEqual({ standing: 'decline', treatment: null });
  });

  it('names only what can still be asked', () => {
    const quilt = caseFrom({ ...bare, survey: { seen: 'photos' } });
    const askable = new Set(['monetary_value', 'made_about']);
    const on = bearings().on(quilt, askable);
    expect(on.length).toBeGreaterThan(0);
    for (const name of on) expect(askable.has(name)).toBe(true);
  });

  it('puts first what check-next puts first', async () => {
    const quilt = shippedCase('message-with-pictures.yaml');
    const { check_next } = await question(evaluate(quilt, context), context);
    expect(check_next?.length).toBeGreaterThan(0);
    const names = check_next?.map(({ finding }) => finding) ?? [];
    // An interview opens with the questions on safety by itself; whoever asks what is next is sent to them first.
    const on = bearings().on(quilt, new Set(names));
    const isSafety = (name: string): boolean =>
      context.knowledge.vocabulary.findings.get(name)?.group === 'safety';
    expect([...on.filter(isSafety), ...on.filter((name) => !isSafety(name))]).toEqual(names);
  });

  it('gives the same after a question was passed over, without what was asked', () => {
    const quilt = caseFrom({ ...bare, survey: { seen: 'in hand' } });
    const kept = bearings();
    const [first, ...rest] = kept.on(quilt, EVERYTHING);
    const left = new Set([...EVERYTHING].filter((name) => name !== first));
    expect(kept.on(quilt, left)).toEqual(rest);
  });

  it('asks what tells only together once all that tells by itself was passed over', () => {
    const quilt = caseFrom({ ...bare, survey: { seen: 'photos' } });
    const kept = bearings();
    const alone = kept.on(quilt, EVERYTHING);
    expect(alone).not.toContain('intended_use');
    const left = new Set([...EVERYTHING].filter((name) => !alone.includes(name)));
    expect(kept.on(quilt, left)).toContain('intended_use');
  });

  it('is right to stop: where nothing bears on the answer, no answers together change it', () => {
    const settled = sample(CASE_FILES, 4)
      .map(shippedCase)
      .filter((quilt) => bearings().on(quilt, EVERYTHING).length === 0);
    expect(settled.length).toBeGreaterThan(FULL ? 3 : 0);
    const variants = new VariantEvaluator(context);
    for (const quilt of settled) {
      const { alone, variables } = variablesOf(quilt, context);
      const open = variables.filter(
        ({ id, current, likely }) => current === undefined && EVERYTHING.has(id) && likely.length > 0,
      );
      const base = variants.answer(alone);
      const answers = open.map((variable) =>
        fc.option(fc.constantFrom(...variable.likely.map(({ value }) => value)), { nil: undefined }),
      );
      fc.assert(
        fc.property(fc.tuple(...answers), (given) => {
          const told = given.reduce(
            (sofar, value, index) =>
              value === undefined ? sofar : (open[index]?.set(sofar, value) ?? sofar),
            alone,
          );
          return sameRecommendation(variants.answer(told), base);
        }),
        { numRuns: FULL ? 25 : 3 },
      );
    }
  });
});
