import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { QuiltCase } from '../../casebook/model.ts';
import { readCase } from '../../casebook/read-case.ts';
import { saveText } from '../../casebook/save-text.ts';
import { findingReader } from '../../findings/validators.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { type OpenCase, openCase } from '../open-case.ts';
import { paragraph } from '../print/layout.ts';
import { relativeName, type Studio } from '../studio.ts';
import type { Terminal } from '../terminal.ts';
import { type Answers, answerAt, isGroup, mergedAnswers } from './answers.ts';
import { candidateOf, caseAnswers } from './candidate.ts';
import type { Prompter } from './converse.ts';
import { openDraft, plainData } from './draft.ts';
import { missingOf, type Question, questionsOf, type Section } from './question.ts';
import { sit } from './sitting.ts';
import { editedCaseText, newCaseText } from './write-case.ts';

/** What sets one interview apart from another. */
export interface InterviewPlan {
  /** The command that resumes it: `enquiry`, `survey`. */
  readonly command: string;
  readonly sections: readonly Section[];
  /** How many sections are asked in full before what matters decides what comes next; all of them where absent. */
  readonly opening?: number;
  /** What counts as answered at the start, from what the case says. */
  known(answers: Answers): Answers;
  /** The last word on everything said, before it is written. */
  finish(said: Answers, before: Answers): Answers;
  /** Writes what was said somewhere else than to a case; a case is written where this is absent. */
  write?(said: Answers, path: string): Promise<{ case: QuiltCase; warnings: readonly Problem[] }>;
}

export interface InterviewSetting {
  readonly plan: InterviewPlan;
  readonly name: string;
  readonly studio: Studio;
  readonly terminal: Terminal;
  /** Given by --set and --from. */
  readonly given: Answers;
  /** Nothing where questions may not be put: --yes, or no terminal. */
  readonly prompter: Prompter | undefined;
  /** How to run it again, for messages. */
  readonly again: string;
}

export interface InterviewResult {
  readonly case: QuiltCase;
  readonly path: string;
  /** Questions that made sense at the end: answered and not. */
  readonly questions: readonly Question[];
  readonly answers: Answers;
}

/** From what is known, through the questions, to a case written whole. */
export async function holdInterview(setting: InterviewSetting): Promise<InterviewResult> {
  const { plan, name, studio, terminal, prompter } = setting;
  const path = join(studio.casesFolder, `${name}.yaml`);
  const existing = existsSync(path) ? await openCase(path, studio) : undefined;
  const before = existing === undefined ? {} : answersOf(existing);
  const draft = await openDraft(studio.casesFolder, name);
  const known = plan.known(before);
  const given = mergedAnswers(draft.said, setting.given);
  refuseFaults(mergedAnswers(known, given), studio);

  const said = prompter === undefined ? given : await sit(setting, known, given, draft, prompter);
  const answers = mergedAnswers(known, said);
  const hearing = { answers, vocabulary: studio.knowledge.vocabulary };
  const missing = missingOf(plan.sections, hearing);
  if (missing.length > 0) throw lacking(setting, missing);
  const last = plan.finish(said, before);
  const written =
    plan.write === undefined ? await write(path, existing, last, setting) : await plan.write(last, path);
  await draft.drop();
  for (const warning of written.warnings) terminal.err(paragraph(`Note: ${warning.what}.`, page(terminal)));
  return { case: written.case, path, questions: questionsOf(plan.sections, hearing), answers };
}

const page = ({ width }: Terminal) => ({ width, color: false });

const answersOf = (existing: OpenCase): Answers => {
  const value = plainData(existing.source.value);
  if (!isGroup(value)) return {};
  const { mendwise: _format, case: _name, expect: _expect, resurveys: _later, ...rest } = value;
  return rest;
};

/** What was given contradicts itself or the case: refused before anything is asked or written. */
function refuseFaults(answers: Answers, studio: Studio): void {
  const { errors } = candidateOf(answers, studio.knowledge.vocabulary);
  // They were read from several places, so they have no one place of their own.
  if (errors.length > 0) throw new ProblemError(errors.map(({ place: _, ...problem }) => problem));
}

const lacking = ({ plan, again }: InterviewSetting, missing: readonly Question[]): ProblemError =>
  new ProblemError([
    {
      code: 'needs-terminal',
      severity: 'error',
      what: `The ${plan.command} cannot end without ${missing.map(({ label }) => label).join(' and ')}`,
      cure: `Add ${missing.map((question) => flagFor(question)).join(' and ')} to ${again}`,
    },
  ]);

const flagFor = ({ id, choices, example }: Question): string =>
  `--set "${id}=${choices.length > 0 ? choices.map(({ value }) => value).join('|') : (example ?? '…').split(' or ')[0]}"`;

async function write(
  path: string,
  existing: OpenCase | undefined,
  said: Answers,
  { name, studio, terminal }: InterviewSetting,
): Promise<{ case: QuiltCase; warnings: readonly Problem[] }> {
  const text =
    existing === undefined
      ? newCaseText(name, terminal.today(), said)
      : editedCaseText(existing.source, said);
  const reading = readCase(relativeName(path), text, findingReader(studio.knowledge.vocabulary));
  if (reading.case === undefined) throw new ProblemError(reading.problems);
  const stamp = terminal.stamp();
  if (existing === undefined) await makeFolder(dirname(path));
  await saveText(path, text, existing === undefined ? { stamp } : { stamp, expected: existing.source.text });
  return { case: reading.case, warnings: reading.problems };
}

const makeFolder = async (folder: string): Promise<void> => {
  const { mkdir } = await import('node:fs/promises');
  await mkdir(folder, { recursive: true }).catch(() => undefined);
};

/** What was said, in the case's terms, for a summary. */
export const saidAt = (answers: Answers, { id }: Question): unknown =>
  answerAt(
    caseAnswers(answers),
    id.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step)),
  );
