import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import { isHelperName, secondSurveyFile } from '../casebook/second-survey.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { relativeName } from './studio.ts';

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
