import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { Document, isMap, isScalar, parseDocument, stringify, visit } from 'yaml';
import { type Edit, editCase } from '../casebook/edit-case.ts';
import { isCaseName, isReservedName } from '../casebook/schema.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Source } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { DRAFT_ENDING } from '../store/case-files.ts';
import { loadText } from '../store/load-text.ts';
import { dropDraft, saveDraft } from '../store/save-text.ts';
import { relativeName } from '../store/studio.ts';
import { type Answers, ASIDE, answerAt, isGroup, leavesOf, mergedAnswers, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Flaw, Question } from './question.ts';
import { caseAnswers } from './validate-answers.ts';

/**
 * What an interview has gathered so far, on disk. It stands beside the case and not in it, because a case is not
 * readable before its name, its size and how it was seen are known; because a half-told survey would change every
 * decision made meanwhile without saying so; and because each of some sixty answers would leave a former version of
 * the case in .history. The case is written once, whole, when the interview ends.
 */
export interface Draft {
  readonly path: string;
  /** What was said before; nothing where there was no draft. */
  readonly said: Answers;
  readonly resumed: boolean;
  save(said: Answers): Promise<void>;
  drop(): Promise<void>;
}

export async function openDraft(casesFolder: string, name: string): Promise<Draft> {
  const path = join(casesFolder, `${name}${DRAFT_ENDING}`);
  const resumed = existsSync(path);
  let last = resumed ? await loadText(path) : undefined;
  return {
    path,
    said: last === undefined ? {} : readDraft(path, last),
    resumed,
    save: async (said) => {
      const text = draftText(name, said);
      await saveDraft(path, text, last);
      last = text;
    },
    drop: () => dropDraft(path),
  };
}

const draftText = (name: string, said: Answers): string =>
  `# Answers of an interview on ${name} that is not finished. It goes on where it stopped when it is started again.\n${stringify(said, { lineWidth: 0 })}`;

function readDraft(path: string, text: string): Answers {
  const read = readYaml(relativeName(path), text);
  if ('problems' in read) throw new ProblemError(read.problems);
  const said = plainData(read.source.value);
  return isGroup(said) ? said : {};
}

/** Data with ordinary groups, as the answers are kept. */
export const plainData = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(plainData);
  if (!isGroup(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, plainData(inner)]));
};

const ORDER = ['mendwise', 'case', 'opened', 'reference', 'client', 'quilt', 'history', 'survey'];

const rank = (name: string): number => {
  const at = ORDER.indexOf(name);
  return at === -1 ? ORDER.length : at;
};

/** A new case as text: the order of the contract, small groups on one line, maps one row a line. */
export const newCaseText = (name: string, opened: string, said: Answers): string => {
  const { mendwise: _, case: __, ...answers } = caseAnswers(said);
  const whole: Answers = { mendwise: 1, case: name, opened, ...answers };
  const sorted = Object.entries(whole).sort(([one], [other]) => rank(one) - rank(other));
  const doc = new Document(Object.fromEntries(sorted), { version: '1.2', schema: 'core' });
  visit(doc, {
    Map: (key, node, path) => {
      const deep = path.filter(isMap).length >= 2 || typeof key === 'number';
      const flat = node.items.every(
        ({ value }) => isScalar(value) && !(typeof value.value === 'string' && value.value.includes('\n')),
      );
      const parent = path.at(-1);
      const findings = typeof parent === 'object' && 'key' in parent && String(parent.key) === 'findings';
      if (deep && flat && !findings) node.flow = true;
    },
  });
  const text = doc.toString({ lineWidth: 0, flowCollectionPadding: true });
  return parseDocument(text).errors.length === 0 ? text : String(doc);
};

/** What to change in a case so that it says what was said: only values that differ; "not known" takes a line out. */
const editsFor = (source: Source, said: Answers): Edit[] => {
  const { mendwise: _, case: __, ...answers } = withAnswer(said, [ASIDE], undefined);
  const file = plainData(source.value);
  const after = caseAnswers(mergedAnswers(isGroup(file) ? file : {}, answers));
  return leavesOf(answers).flatMap(({ path }): Edit[] => {
    const before = answerAt(source.value, path);
    const value = answerAt(after, path);
    if (value === undefined) return before === undefined ? [] : [{ path, value: undefined }];
    return isDeepStrictEqual(JSON.stringify(before), JSON.stringify(value)) ? [] : [{ path, value }];
  });
};

export const editedCaseText = (source: Source, said: Answers): string =>
  editCase(source, editsFor(source, said));

/** What is wrong with a case name, or nothing. */
const badCaseName = (name: string): Flaw | undefined => {
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
