import type { QuiltCase } from '../../casebook/model.ts';
import type { Answer } from '../../decision/answer-model.ts';
import { type Decision, decide } from '../../decision/decide.ts';
import type { StudioPractice } from '../../decision/reading.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import { asOf } from '../as-of.ts';
import type { Action, Typed } from '../command.ts';
import { studioOptions } from '../command.ts';
import { type OpenCase, openCase } from '../open-case.ts';
import { hasOtherSurveys } from '../other-surveys.ts';
import { printAnswer } from '../print/answer.ts';
import { paragraph } from '../print/layout.ts';
import { openStudio, type Studio } from '../studio.ts';
import { tellProblems } from '../tell-problems.ts';
import type { Terminal } from '../terminal.ts';

export const action: Action = async (typed, terminal) => {
  const recording = TELLING.some((name) => typed.options[name] !== undefined) && (await wantsRecord(typed));
  const studio = await openStudio(studioOptions(typed));
  const name = typed.args[0] ?? '';
  const found = await openCase(name, studio);
  tellProblems(found.warnings, terminal);
  if (typed.options.asRecorded !== undefined) return replay(typed, found, terminal);
  const { knowledge, practice } = studio;
  const day = asOf(typed, terminal);
  const before = await decide(found.case, knowledge, practice, day);
  if (recording) await record(typed, found, studio, before, terminal);
  // What was chosen just now is part of the answer.
  const opened = recording ? await openCase(name, studio) : found;
  const decision = recording ? await decide(opened.case, knowledge, practice, day) : before;
  const look = typed.options.quick === true ? undefined : await jointLook(opened, studio, day);
  const surveys = look === undefined ? {} : { surveys: look.data };
  await show(typed, opened.case, decision, knowledge, practice, terminal, surveys);
  for (const [index, line] of (look?.message ?? []).entries())
    terminal.err(paragraph(line, { width: terminal.width, color: false }, index === 0 ? '' : '  - '));
  return 0;
};

/** Loaded only where somebody else has surveyed the quilt. */
async function jointLook(opened: OpenCase, studio: Studio, day: string) {
  if (!(await hasOtherSurveys(opened.path))) return undefined;
  return (await import('../joint-look.ts')).jointLook(opened, studio, day);
}

/** Options that have to do with recording a decision; the code for that is loaded only where one is given. */
const TELLING = ['record', 'choose', 'client', 'because', 'riskNote', 'by'];

const wantsRecord = async (typed: Typed): Promise<boolean> =>
  (await import('../taken-choice.ts')).wantsRecord(typed);

async function record(
  typed: Typed,
  opened: OpenCase,
  studio: Studio,
  decision: Decision,
  terminal: Terminal,
): Promise<void> {
  const { recordDecision } = await import('../record-decision.ts');
  const message = await recordDecision(typed, opened, studio, decision, terminal);
  terminal.err(paragraph(message, { width: terminal.width, color: false }));
}

/** A decision recorded earlier, made again from the rules, the case and the prices of that day. */
async function replay(typed: Typed, opened: OpenCase, terminal: Terminal): Promise<0> {
  const { chosenRecord } = await import('../record-decision.ts');
  const { recalled } = await import('../records.ts');
  const entry = chosenRecord(opened, typed.options.asRecorded);
  const { quiltCase: then, knowledge, practice } = await recalled(opened.path, entry);
  // The case was kept as it was before the entry: what was chosen with it belongs to the answer.
  const quiltCase = { ...then, decisions: [...(then.decisions ?? []), entry] };
  await show(
    typed,
    quiltCase,
    await decide(quiltCase, knowledge, practice, entry.on),
    knowledge,
    practice,
    terminal,
  );
  return 0;
}

async function show(
  typed: Typed,
  quiltCase: QuiltCase,
  decision: Decision,
  knowledge: Knowledge,
  practice: StudioPractice,
  terminal: Terminal,
  surveys: object = {},
): Promise<void> {
  const answer: Answer =
    typed.options.quick === true
      ? decision.answer
      : { ...decision.answer, ...(await questioned(quiltCase, knowledge, practice, decision.answer.as_of)) };
  if (typed.options.json === true) terminal.out(JSON.stringify({ ...answer, ...surveys }, null, 2));
  else terminal.out(printAnswer(answer, quiltCase, { color: terminal.color, width: terminal.width }));
}

/** The sweeps take longest, and their code is loaded when they are wanted. */
async function questioned(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  practice: StudioPractice,
  day: string,
): Promise<Partial<Answer>> {
  const { questionAnswer } = await import('../../decision/questions/ask.ts');
  return questionAnswer(quiltCase, knowledge, practice, day);
}
