import { readFileSync } from 'node:fs';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { readSecondSurvey, type SecondSurvey } from '../../src/casebook/second-survey.ts';
import type { DecisionContext } from '../../src/decision/context.ts';
import { defaultStudio } from '../../src/estimates/price.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { readKnowledge } from '../../src/rulebook/knowledge.ts';

const text = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

const knowledge = readKnowledge((name) => ({ file: `rules/${name}`, text: text(`rules/${name}`) }));

/** The shipped rules, as a new studio has them. */
export const court: DecisionContext = {
  knowledge,
  practice: { washing: 'museum', settings: defaultStudio(knowledge.figures) },
  day: '2026-11-27',
};

const reader = findingReader(knowledge.vocabulary);

/** A case of the shipped demo studio. */
export const demoCase = (name: string): QuiltCase => {
  const { case: found, problems } = readCase(`${name}.yaml`, text(`cases/demo/${name}.yaml`), reader);
  if (found === undefined) throw new Error(JSON.stringify(problems));
  return found;
};

export const demoSurvey = (name: string, helper: string): SecondSurvey => {
  const file = `${name}.${helper}.yaml`;
  const { survey, problems } = readSecondSurvey(file, text(`cases/demo/${file}`), reader, demoCase(name));
  if (survey === undefined) throw new Error(JSON.stringify(problems));
  return survey;
};
