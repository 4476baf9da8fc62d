import type { QuiltCase } from '../../casebook/model.ts';
import { decide } from '../../decision/decide.ts';
import type { Questioned } from '../../decision/questions/ask.ts';
import { printProblems } from '../../problems/print.ts';
import { ProblemError } from '../../problems/problem.ts';
import { readDate } from '../../quantities/date.ts';
import type { Action, Typed } from '../command.ts';
import { studioOptions, textOption } from '../command.ts';
import { openCase } from '../open-case.ts';
import { printAnswer } from '../print/answer.ts';
import { openStudio, type Studio } from '../studio.ts';
import type { Terminal } from '../terminal.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  if (opened.warnings.length > 0)
    terminal.err(printProblems(opened.warnings, { color: terminal.color, width: terminal.width }));
  const { knowledge, practice } = studio;
  const day = asOf(typed, terminal);
  const decision = await decide(opened.case, knowledge, practice, day);
  const questioned = typed.options.quick === true ? {} : await ask(opened.case, studio, day);
  const answer = { ...decision.answer, ...questioned };
  if (typed.options.json === true) terminal.out(JSON.stringify(answer, null, 2));
  else terminal.out(printAnswer(answer, opened.case, { color: terminal.color, width: terminal.width }));
  return 0;
};

/** The sweeps take longest, and their code is loaded when they are wanted. */
async function ask(quiltCase: QuiltCase, { knowledge, practice }: Studio, day: string): Promise<Questioned> {
  const { questionAnswer } = await import('../../decision/questions/ask.ts');
  return questionAnswer(quiltCase, knowledge, practice, day);
}

/** The day whose rules hold: as given, else today. */
export function asOf(typed: Typed, terminal: Terminal): string {
  const given = textOption(typed, 'asOf');
  if (given === undefined) return terminal.today();
  if (readDate(given) === undefined) {
    throw new ProblemError([{ code: 'bad-date', severity: 'error', what: `"${given}" is not a date` }]);
  }
  return given;
}
