import { expect, test } from 'vitest';
import { type Prompter, runQuestionLoop } from '../../../src/interview/question-loop.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { validateAnswers } from '../../../src/interview/validate-answers.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';
import { BEFORE, typedFor } from './scripted-survey.ts';

const effort = async (known: object) => {
  const asked: string[] = [];
  let keys = 0;
  const prompter: Prompter = {
    tell: () => undefined,
    ask: async (question, fault) => {
      const raw = typedFor(question.id);
      expect(fault(raw)?.what, question.id).toBeUndefined();
      asked.push(question.id);
      // Every line ends with Enter.
      keys += raw.length + 1;
      return { kind: 'answer', raw };
    },
  };
  const said = await runQuestionLoop({
    interview: SURVEY,
    vocabulary,
    known: known as Record<string, unknown>,
    said: {},
    prompter,
    confirmed: async () => undefined,
    enough: async () => false,
  });
  return { asked, keys, said };
};

test('a survey of 208 squares takes at most 60 prompts and 450 keystrokes', async () => {
  const { asked, keys, said } = await effort(BEFORE);
  const { case: quiltCase } = validateAnswers(
    { ...BEFORE, ...said, quilt: { ...BEFORE.quilt, ...Object(said.quilt) } },
    vocabulary,
  );
  const units = quiltCase?.survey.units?.flat() ?? [];
  expect(units).toHaveLength(208);
  expect(units.filter((state) => state !== 'sound')).toHaveLength(13);
  expect(quiltCase?.survey.joins).toMatchObject({ inspected: 13 * 15 + 12 * 16, open: 140 });
  // Three fabrics, each on about a third of the squares.
  for (const letter of ['A', 'B', 'C'])
    expect(
      Math.abs(
        (quiltCase?.survey.family_map?.flat().filter((each) => each === letter).length ?? 0) - 208 / 3,
      ),
    ).toBeLessThan(1);
  expect(quiltCase?.survey.families?.C).toMatchObject({
    fragility: 'worn',
    fibre: 'cotton',
    self_destructing: false,
  });
  expect(asked.length).toBeLessThanOrEqual(60);
  expect(keys).toBeLessThanOrEqual(450);
});
