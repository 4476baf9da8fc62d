import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { ProblemError } from '../../problems/problem.ts';
import type { Prompter } from '../ask/converse.ts';
import { givenAnswers } from '../ask/given.ts';
import { holdInterview, type InterviewResult, type InterviewSetting } from '../ask/interview.ts';
import { listOption, type Typed, textOption } from '../command.ts';
import type { ExitCode } from '../guard.ts';
import { printSummary } from '../print/summary.ts';
import { relativeName } from '../studio.ts';
import type { Terminal } from '../terminal.ts';

/** Questions are put only to somebody who can answer, and not where --yes says to ask nothing. */
export const mayAsk = (typed: Typed, terminal: Terminal): boolean =>
  terminal.canAsk && typed.options.yes !== true;

/** The prompts are loaded only where something is asked. */
export const openPrompter = async (terminal: Terminal): Promise<Prompter> =>
  (await import('../ask/prompts.ts')).terminalPrompter(terminal);

type Held = Pick<InterviewSetting, 'plan' | 'name' | 'studio' | 'prompter'>;

/** Holds an interview, and says what came of it: what is known, where it was written, where the quilt stands now. */
export async function runInterview(typed: Typed, terminal: Terminal, held: Held): Promise<ExitCode> {
  const { plan, name, studio } = held;
  const given = await givenAnswers(
    { from: textOption(typed, 'from'), settings: listOption(typed, 'set') },
    studio.knowledge.vocabulary,
  );
  const again = againWith(typed, plan.command, name);
  let result: InterviewResult;
  try {
    result = await holdInterview({ ...held, terminal, given, again });
  } catch (error) {
    const [stopped] = error instanceof ProblemError ? error.problems : [];
    if (stopped?.code !== 'interrupted') throw error;
    // To stop is no fault: no "error", only where the answers are and how to go on.
    terminal.err(['', stopped.what, stopped.cure ?? ''].join('\n'));
    return 130;
  }
  const { answer } = await decide(result.case, contextOf(studio, terminal.today()));
  const style = { color: terminal.color, width: terminal.width };
  terminal.out(printSummary(result, answer, relativeName(result.path), style));
  return 0;
}

const againWith = (typed: Typed, command: string, name: string): string => {
  const folder = textOption(typed, 'studio');
  const studio =
    folder === undefined ? '' : ` --studio ${/^[\w./-]+$/.test(folder) ? folder : `"${folder}"`}`;
  const helper = textOption(typed, 'as');
  // A second survey is named by its file, CASE.HELPER; the command names the two apart.
  return helper === undefined
    ? `mendwise ${command} ${name}${studio}`
    : `mendwise ${command} ${name.slice(0, -helper.length - 1)} --as ${helper}${studio}`;
};
