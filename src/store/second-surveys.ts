import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import {
  isHelperName,
  readSecondSurvey,
  type SecondSurvey,
  secondSurveyFile,
} from '../casebook/second-survey.ts';
import { contextOf } from '../decision/context.ts';
import { sayRecommendation } from '../decision/words.ts';
import { type Disagreements, disagreements, thatMatter } from '../experience/disagreement.ts';
import { sayPairs, topicName } from '../experience/format.ts';
import { findingReader } from '../findings/read-answer.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { type OpenCase, openCase } from './case-store.ts';
import { loadText } from './load-text.ts';
import { secondSurveyFiles } from './second-survey-files.ts';
import { formatterOf, relativeName, type Studio } from './studio.ts';

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

/** What to say where surveys of one quilt lead to different answers; and the same as data. */
export interface JointLook {
  /** Undefined where the surveys agree on everything that matters. */
  readonly message: readonly string[] | undefined;
  readonly data: ReturnType<typeof disagreementsForScripts>;
}

/**
 * Looks whether others have surveyed the quilt, and whether they disagree on something that changes the answer. Their
 * findings are never averaged: the answer stays that of the first survey, but for a hazard that any of them notes, and a
 * joint look is asked for. Undefined where
 * there is no other survey.
 */
export const jointLook = async (
  { path, case: base }: OpenCase,
  studio: Studio,
  day: string,
): Promise<JointLook | undefined> => {
  const { others } = await otherSurveys(path, base, studio);
  if (others.length === 0) return undefined;
  const context = contextOf(studio, day);
  const found = disagreements(base, others, context);
  const formatter = formatterOf(studio);
  const matter = thatMatter(found);
  const data = disagreementsForScripts(found);
  if (matter.length === 0 && !found.onlyTogether) return { message: undefined, data };
  const helpers = found.views.map(({ helper, verdict }) => `${helper}: ${sayRecommendation(verdict)}`);
  return {
    data,
    message: [
      'The surveys of this quilt disagree on something that changes the answer. Look at it together before anything is promised; the answer given is that of the first survey.',
      `By each survey: ${helpers.join('; ')}.`,
      ...matter.map((one) => `${topicName(one)}: ${sayPairs(one, formatter).join('. ')}`),
      ...(found.onlyTogether
        ? ['No single finding accounts for it, so go through the whole survey together.']
        : []),
      `The signs to look for: mendwise helpers ${base.case}`,
    ],
  };
};

/** Whether anybody else has surveyed the case in this file. */
export const hasOtherSurveys = async (path: string): Promise<boolean> =>
  (await secondSurveyFiles(dirname(path))).has(basename(path).replace(/\.ya?ml$/i, ''));

const refuse = (code: Problem['code'], what: string, more: Partial<Problem>): never => {
  throw new ProblemError([{ code, severity: 'error', what, ...more }]);
};

/** Where a helper's survey of a case is to stand. Throws ProblemError where that helper has surveyed it before. */
export const secondSurveyPath = (path: string, base: QuiltCase, helper: string): string => {
  if (!isHelperName(helper)) {
    return refuse('bad-name', `"${helper}" cannot be the name of a helper`, {
      why: 'It becomes part of a file name, and some names have a meaning of their own there, such as draft.',
      cure: 'Use letters, digits and dashes, such as helper-b.',
    });
  }
  if (base.survey.by === helper) {
    return refuse('already-there', `${helper} made the first survey of ${base.case}`, {
      why: 'Two surveys by one person say nothing of how far two people agree.',
      cure: 'Let somebody else survey it.',
    });
  }
  const file = join(dirname(path), secondSurveyFile(basename(path).replace(/\.ya?ml$/i, ''), helper));
  if (existsSync(file)) {
    return refuse('already-there', `${helper} has surveyed ${base.case} already, in ${relativeName(file)}`, {
      cure: 'Change that file by hand, or move it away first; nothing was written.',
    });
  }
  return file;
};

/** What surveys of one quilt disagree on, as data. */
export const disagreementsForScripts = ({ case: of, views, all, onlyTogether }: Disagreements) => ({
  case: of,
  helpers: views.map(({ helper, verdict }) => ({ helper, ...verdict })),
  only_together: onlyTogether,
  disagreements: all.map(({ label, pairs, swings, tried, units }) => ({
    label,
    matters: swings.length > 0,
    mixtures: tried,
    changes: swings,
    units,
    said: pairs.map(({ a, b, topic }) => ({
      helpers: [a, b],
      answers: topic.differences.map(({ finding, thing, a: one, b: other }) => ({
        finding,
        of: thing,
        values: [one.value, other.value],
      })),
    })),
  })),
});
