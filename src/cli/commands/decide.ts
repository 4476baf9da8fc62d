import type { QuiltCase } from '../../casebook/model.ts';
import type { Answer } from '../../decision/answer-model.ts';
import { contextOf, type DecisionContext } from '../../decision/context.ts';
import { type Decision, decide, decideQuick } from '../../decision/decide.ts';
import { printAnswer } from '../../documents/terminal/answer.ts';
import { paragraph } from '../../documents/terminal/layout.ts';
import { type OpenCase, openCase } from '../../store/case-store.ts';
import { hasOtherSurveys } from '../../store/second-surveys.ts';
import { openStudio, type Studio } from '../../store/studio.ts';
import { type Terminal, tellProblems } from '../../store/terminal.ts';
import { type Action, asOf, studioOptions, type Typed } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const recording = TELLING.some((name) => typed.options[name] !== undefined) && (await wantsRecord(typed));
  const studio = await openStudio(studioOptions(typed));
  const name = typed.args[0] ?? '';
  const found = await openCase(name, studio);
  tellProblems(found.warnings, terminal);
  if (typed.options.asRecorded !== undefined) return replay(typed, found, studio, terminal);
  const day = asOf(typed, terminal);
  const context = contextOf(studio, day);
  const before = await answered(found.case, context, typed);
  if (recording) await record(typed, { opened: found, decision: before }, studio, terminal);
  // What was chosen just now is part of the answer.
  const opened = recording ? await openCase(name, studio) : found;
  const decision = recording ? await answered(opened.case, context, typed) : before;
  const look = typed.options.quick === true ? undefined : await jointLook(opened, studio, day);
  const surveys = look === undefined ? {} : { surveys: look.data };
  await show(typed, { decision, surveys }, context, terminal);
  for (const [index, line] of (look?.message ?? []).entries())
    terminal.err(paragraph(line, { width: terminal.width, color: false }, index === 0 ? '' : '  - '));
  return 0;
};

/** Loaded only where somebody else has surveyed the quilt. */
async function jointLook(opened: OpenCase, studio: Studio, day: string) {
  if (!(await hasOtherSurveys(opened.path))) return undefined;
  return (await import('../../store/second-surveys.ts')).jointLook(opened, studio, day);
}

/** Options that have to do with recording a decision; the code for that is loaded only where one is given. */
const TELLING = ['record', 'choose', 'client', 'because', 'riskNote', 'by'];

const wantsRecord = async (typed: Typed): Promise<boolean> =>
  (await import('./record-decision.ts')).wantsRecord(typed);

async function record(
  typed: Typed,
  made: { readonly opened: OpenCase; readonly decision: Decision },
  studio: Studio,
  terminal: Terminal,
): Promise<void> {
  const { recordDecision } = await import('./record-decision.ts');
  const message = await recordDecision(typed, made, studio, terminal);
  terminal.err(paragraph(message, { width: terminal.width, color: false }));
}

/** A decision recorded earlier, made again from the rules, the case and the prices of that day. */
async function replay(typed: Typed, opened: OpenCase, studio: Studio, terminal: Terminal): Promise<0> {
  const { chosenRecord } = await import('./record-decision.ts');
  const { recalled } = await import('../../store/decision-records.ts');
  const entry = chosenRecord(opened, typed.options.asRecorded);
  const { quiltCase: then, knowledge, practice } = await recalled(opened.path, entry);
  // The case was kept as it was before the entry: what was chosen with it belongs to the answer.
  const quiltCase = { ...then, decisions: [...(then.decisions ?? []), entry] };
  const context = contextOf({ knowledge, practice }, entry.on);
  await show(typed, { decision: await decide(quiltCase, context) }, context, terminal);
  // What was agreed on is no leave to go on with a quilt in which something has been found since.
  (await import('../hazard.ts')).tellHazard(opened.case, studio, terminal);
  return 0;
}

/** The bare answer is not confirmed by the engine: a script that asks over and over decides nothing. */
const answered = (quiltCase: QuiltCase, context: DecisionContext, { options }: Typed): Promise<Decision> =>
  options.quick === true && TELLING.every((name) => options[name] === undefined)
    ? Promise.resolve(decideQuick(quiltCase, context))
    : decide(quiltCase, context);

async function show(
  typed: Typed,
  { decision, surveys = {} }: { readonly decision: Decision; readonly surveys?: object },
  context: DecisionContext,
  terminal: Terminal,
): Promise<void> {
  const answer: Answer =
    typed.options.quick === true
      ? decision.answer
      : { ...decision.answer, ...(await questioned(decision, context)) };
  if (typed.options.json === true) terminal.out(JSON.stringify({ ...answer, ...surveys }, null, 2));
  else terminal.out(printAnswer(answer, decision.asGiven, { color: terminal.color, width: terminal.width }));
}

/** The sweeps take longest, and their code is loaded when they are wanted. */
async function questioned(decision: Decision, context: DecisionContext): Promise<Partial<Answer>> {
  const { question } = await import('../../decision/questions/ask.ts');
  return question(decision, context);
}
