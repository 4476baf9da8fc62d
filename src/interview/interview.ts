import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { contextOf } from '../decision/context.ts';
import { certainDeclines } from '../decision/provisional.ts';
import { QuestionRanker } from '../decision/questions/next-question.ts';
import { sayRecommendation } from '../decision/words.ts';
import { counted } from '../documents/phrases.ts';
import { paragraph } from '../documents/terminal/layout.ts';
import { findingReader } from '../findings/read-answer.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Path } from '../source/source.ts';
import { type OpenCase, openCase } from '../store/case-store.ts';
import { saveText } from '../store/save-text.ts';
import { relativeName, type Studio } from '../store/studio.ts';
import type { Terminal } from '../store/terminal.ts';
import { type Answers, answerAt, isGroup, mergedAnswers, textAt, without } from './answers.ts';
import { type Draft, editedCaseText, newCaseText, openDraft, plainData } from './draft.ts';
import { offerToStop } from './prompts.ts';
import {
  type Flaw,
  idOf,
  missingOf,
  pathOfId,
  type Question,
  questionsOf,
  type Section,
} from './question.ts';
import { type Course, type LoopOptions, type Prompter, runQuestionLoop } from './question-loop.ts';
import { lostFrom, stillToCome, takenBack } from './refusals.ts';
import { caseAnswers, validateAnswers } from './validate-answers.ts';

/** What sets one interview apart from another. */
export interface InterviewPlan {
  /** The command that resumes it: `enquiry`, `survey`. */
  readonly command: string;
  readonly sections: readonly Section[];
  /** How many sections are asked in full before what matters decides what comes next; all of them where absent. */
  readonly opening?: number;
  /** A first message: nobody has seen it, so no answer says what to do with it. */
  readonly unseen?: true;
  /** The one question to put, by its id; all of them where absent. */
  readonly only?: string;
  /** What counts as answered at the start, from what the case says. */
  known(answers: Answers): Answers;
  /** Answers that are asked for again in a sitting, with the old one and how it was known; Enter keeps it. */
  askedAgain?(before: Answers): readonly { readonly path: Path; readonly how: unknown }[];
  /** Paths of answers that must be given anew; the old one is shown and Enter does not keep it. */
  newly?(before: Answers): readonly Path[];
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

/** One question needs no draft, and leaves that of an unfinished interview alone. */
const NO_DRAFT: Draft = {
  path: '',
  said: {},
  resumed: false,
  save: async () => undefined,
  drop: async () => undefined,
};

/** From what is known, through the questions, to a case written whole. */
export async function holdInterview(setting: InterviewSetting): Promise<InterviewResult> {
  const { plan, name, studio, terminal, prompter } = setting;
  const path = join(studio.casesFolder, `${name}.yaml`);
  const existing = existsSync(path) ? await openCase(path, studio) : undefined;
  const before = existing === undefined ? {} : answersOf(existing);
  const draft = plan.only === undefined ? await openDraft(studio.casesFolder, name) : NO_DRAFT;
  const known = plan.known(before);
  const given = mergedAnswers(draft.said, setting.given);
  // What a person left in disagreement is sorted out with them; what was given on the command line is refused.
  refuseFaults(mergedAnswers(known, prompter === undefined ? given : setting.given), studio);
  const { vocabulary } = studio.knowledge;
  const refuse = (answers: Answers) =>
    existing && !plan.write ? takenBack(existing.case, answers, vocabulary) : undefined;
  refuseFlaw(refuse(setting.given));
  const said =
    prompter === undefined
      ? given
      : await runSession({ ...setting, prompter }, { before, known, refuse }, given, draft);
  const answers = mergedAnswers(known, said);
  const session = { answers, vocabulary };
  const missing = missingOf(plan.sections, session);
  if (missing.length > 0) throw lacking(setting, missing);
  const last = plan.finish(said, before);
  refuseFlaw(stillToCome(last, terminal.today()));
  const written =
    plan.write === undefined ? await write(path, existing, last, setting) : await plan.write(last, path);
  await draft.drop();
  for (const warning of written.warnings) terminal.err(paragraph(`Note: ${warning.what}.`, page(terminal)));
  return { case: written.case, path, questions: questionsOf(plan.sections, session), answers };
}

const page = ({ width }: Terminal) => ({ width, color: false });

export const answersOf = (existing: OpenCase): Answers => {
  const value = plainData(existing.source.value);
  if (!isGroup(value)) return {};
  const { mendwise: _f, case: _name, expect: _expect, resurveys: _later, treated: _treated, ...rest } = value;
  return rest;
};

/** What was given contradicts itself or the case: refused before anything is asked or written. */
function refuseFaults(answers: Answers, studio: Studio): void {
  const { errors } = validateAnswers(answers, studio.knowledge.vocabulary);
  // They were read from several places, so they have no one place of their own.
  if (errors.length > 0) throw new ProblemError(errors.map(({ place: _, ...problem }) => problem));
}

const refuseFlaw = (flaw?: Flaw): void => {
  if (flaw) throw new ProblemError([{ severity: 'error', ...flaw }]);
};

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
  const reader = findingReader(studio.knowledge.vocabulary);
  const reading = readCase(relativeName(path), text, reader, existing?.case.elsewhere);
  if (reading.case === undefined) throw new ProblemError(reading.problems);
  if (existing !== undefined) refuseFlaw(lostFrom(existing.case, reading.case));
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
  answerAt(caseAnswers(answers), pathOfId(id));

/** One sitting: what is answered already, then the questions; Ctrl-C ends it with every confirmed answer kept. */
async function runSession(
  setting: InterviewSetting & { readonly prompter: Prompter },
  { before, known: onFile, refuse }: { before: Answers; known: Answers } & Pick<LoopOptions, 'refuse'>,
  given: Answers,
  draft: Draft,
): Promise<Answers> {
  const { plan, studio, terminal, name, prompter } = setting;
  const askedAgain = plan.askedAgain?.(before) ?? [];
  const known = without(
    onFile,
    askedAgain.map(({ path }) => path),
  );
  const { vocabulary } = studio.knowledge;
  const start = questionsOf(plan.sections, { answers: mergedAnswers(known, given), vocabulary });
  if (plan.only === undefined) prompter.tell(opening(name, draft.resumed, start));
  const told = new Set<string>();
  const bearings = new QuestionRanker(contextOf(studio, terminal.today()));
  try {
    return await runQuestionLoop({
      interview: plan.sections,
      vocabulary,
      known,
      units: studio.practice.settings.units,
      today: terminal.today(),
      ...(plan.only === undefined ? {} : { only: plan.only }),
      old: before,
      newly: new Set((plan.newly?.(before) ?? []).map(idOf)),
      knownBy: new Map(askedAgain.map(({ path, how }) => [idOf(path), how])),
      said: given,
      ...(refuse === undefined ? {} : { refuse }),
      prompter,
      confirmed: draft.save,
      ...(plan.opening === undefined ? {} : { course: courseOf(plan.opening, bearings, vocabulary) }),
      settled: async (open, { answers }) => {
        const { case: quiltCase } = validateAnswers(answers, vocabulary);
        const verdict = quiltCase === undefined ? undefined : bearings.verdict(quiltCase);
        const answer = verdict === undefined || plan.unseen === true ? '' : `: ${sayRecommendation(verdict)}`;
        const later =
          textAt(answers, ['survey', 'seen']) === 'in hand' ? '' : ' Seeing the quilt in hand still may.';
        prompter.tell([
          `Nothing still open here changes the answer${answer}.${later}`,
          `${counted(open.length, 'question')} ${open.length === 1 ? 'is' : 'are'} left; they make hours, price and years surer.`,
        ]);
        return offerToStop(prompter);
      },
      enough: async (answers) => {
        const rules = declines(answers, studio, terminal.today()).filter(({ id }) => !told.has(id));
        const [rule] = rules;
        for (const { id } of rules) told.add(id);
        if (rule === undefined) return false;
        prompter.tell([
          `On what has been said this quilt will be declined: ${rule.title}.`,
          'No later answer changes that. If it was a slip, go on and choose back.',
        ]);
        return offerToStop(prompter);
      },
    });
  } catch (error) {
    if (!(error instanceof Error) || error.name !== 'ExitPromptError') throw error;
    throw new ProblemError([
      {
        code: 'interrupted',
        severity: 'error',
        what: existsSync(draft.path)
          ? `Stopped. Every answer you confirmed is kept in ${relativeName(draft.path)}.`
          : 'Stopped. Nothing had been answered yet.',
        cure: `Go on with: ${setting.again}`,
      },
    ]);
  }
}

const opening = (name: string, resumed: boolean, start: readonly Question[]): string[] => {
  const answered = start.filter(({ answered: done }) => done);
  const keys =
    'Enter alone means not known; ? shows how to look; back goes to the question before; list shows what was answered, change 3 corrects one. Ctrl-C stops: every answer you have confirmed is kept.';
  if (answered.length === 0) return [`${name}: a new interview.`, keys];
  const labels = answered.map(({ label }) => label).join('; ');
  const lead = resumed ? 'going on where it stopped' : 'some of it is known already';
  return [`${name}: ${lead}.`, `Already answered (${answered.length}): ${labels}.`, keys];
};

/** Rules that decline on what has been said; none where what has been said cannot be read as a case. */
const declines = (answers: Answers, studio: Studio, day: string) => {
  const { case: quiltCase } = validateAnswers(answers, studio.knowledge.vocabulary);
  if (quiltCase === undefined) return [];
  const sized =
    answerAt(answers, ['quilt', 'size', 'width']) !== undefined &&
    answerAt(answers, ['quilt', 'size', 'height']) !== undefined;
  return certainDeclines(quiltCase, contextOf(studio, day), sized);
};

const courseOf = (opening: number, bearings: QuestionRanker, vocabulary: Vocabulary): Course => ({
  opening,
  bearing: ({ answers }, askable) => {
    const { case: quiltCase } = validateAnswers(answers, vocabulary);
    return quiltCase === undefined ? [] : bearings.on(quiltCase, askable);
  },
});
