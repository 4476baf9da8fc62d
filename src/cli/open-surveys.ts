import { readdir } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { readSecondSurvey, type SecondSurvey } from '../casebook/second-survey.ts';
import { findingReader } from '../findings/validators.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { openCase } from './open-case.ts';
import { secondSurveyFiles } from './other-surveys.ts';
import { relativeName, type Studio } from './studio.ts';

/** A case with every other survey of the same quilt. */
export interface SurveyedCase {
  readonly path: string;
  readonly case: QuiltCase;
  readonly others: readonly SecondSurvey[];
  readonly warnings: readonly Problem[];
}

const yaml = /\.ya?ml$/i;

const readSurveyFile = async (file: string, studio: Studio, of?: QuiltCase) =>
  readSecondSurvey(relativeName(file), await loadText(file), findingReader(studio.knowledge.vocabulary), of);

/** Reads the other surveys of a case. Throws ProblemError with everything wrong in any of them. */
export const otherSurveys = async (
  path: string,
  quiltCase: QuiltCase,
  studio: Studio,
): Promise<{ others: readonly SecondSurvey[]; warnings: readonly Problem[] }> => {
  const files = (await secondSurveyFiles(dirname(path))).get(basename(path).replace(yaml, '')) ?? [];
  const problems: Problem[] = [];
  const others: SecondSurvey[] = [];
  for (const file of files) {
    const reading = await readSurveyFile(file, studio, quiltCase);
    problems.push(...reading.problems);
    if (reading.survey !== undefined) others.push(reading.survey);
  }
  if (problems.some(({ severity }) => severity === 'error')) throw new ProblemError(problems);
  return { others, warnings: problems };
};

export const openSurveyed = async (name: string, studio: Studio): Promise<SurveyedCase> => {
  const { path, case: quiltCase, warnings } = await openCase(name, studio);
  const { others, warnings: more } = await otherSurveys(path, quiltCase, studio);
  return { path, case: quiltCase, others, warnings: [...warnings, ...more] };
};

/** Every case of the studio that was surveyed more than once. A survey of a case that is not there is a fault. */
export const openAllSurveyed = async (studio: Studio): Promise<readonly SurveyedCase[]> => {
  const found: SurveyedCase[] = [];
  const problems: Problem[] = [];
  const names = new Set(
    (await readdir(studio.casesFolder).catch(() => [])).map((name) => name.replace(yaml, '')),
  );
  for (const [name, files] of [...(await secondSurveyFiles(studio.casesFolder))].sort()) {
    if (names.has(name)) {
      try {
        found.push(await openSurveyed(join(studio.casesFolder, `${name}.yaml`), studio));
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        problems.push(...error.problems);
      }
      continue;
    }
    for (const file of files) {
      const reading = await readSurveyFile(file, studio);
      problems.push(...reading.problems);
    }
  }
  if (problems.some(({ severity }) => severity === 'error')) throw new ProblemError(problems);
  return found;
};
