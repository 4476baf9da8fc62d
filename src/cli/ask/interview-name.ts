import { readdirSync } from 'node:fs';
import { isCaseName, isReservedName } from '../../casebook/case-name.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { plainQuestion } from './plain-question.ts';
import type { Flaw, Question } from './question.ts';

/** What is wrong with a case name, or nothing. */
export const badCaseName = (name: string): Flaw | undefined => {
  const what = `"${name}" cannot be the name of a case`;
  const cure = 'Use letters, digits and dashes, such as lantern-ninepatch; never a person’s name.';
  if (!isCaseName(name)) return { code: 'bad-name', what, cure };
  if (!isReservedName(name)) return undefined;
  return { code: 'bad-name', what, why: 'It has a meaning of its own among the files of a studio.', cure };
};

export const checkedCaseName = (name: string): string => {
  const flaw = badCaseName(name);
  if (flaw !== undefined) throw new ProblemError([{ severity: 'error', ...flaw }]);
  return name;
};

/** The one question that comes before all others: without a name no answer could be kept. */
export const nameQuestion: Question = plainQuestion(
  {},
  {
    path: ['case'],
    ask: 'A short name for this quilt, not a person’s',
    label: 'its name',
    example: 'lantern-ninepatch',
    required: true,
    look: ['Letters, digits and dashes. It becomes the name of the file.'],
    read: (raw) => {
      const flaw = badCaseName(raw.trim());
      return flaw === undefined ? { value: raw.trim() } : { flaw };
    },
  },
);

/** A survey needs a case; a near miss is most likely a slip. */
export const noSuchCase = (name: string, casesFolder: string): ProblemError => {
  const names = readdirOrNone(casesFolder).flatMap((file) => /^([^.].*)\.ya?ml$/.exec(file)?.[1] ?? []);
  const near = suggest(name, names);
  const problem: Problem = {
    code: 'no-such-file',
    severity: 'error',
    what: `there is no case ${name}`,
    cure: `"mendwise cases" lists what there is; "mendwise enquiry ${name}" begins a new one.`,
    ...(near === undefined ? {} : { didYouMean: near }),
  };
  return new ProblemError([problem]);
};

const readdirOrNone = (folder: string): string[] => {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
};
