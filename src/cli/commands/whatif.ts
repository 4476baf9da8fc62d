import type { QuiltCase } from '../../casebook/model.ts';
import { contextOf, type DecisionContext } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { variablesOf } from '../../decision/questions/ask.ts';
import { compareAnswers, readTurn } from '../../decision/questions/compare.ts';
import type { Change } from '../../decision/questions/counterfactuals.ts';
import { findingVariables, SUPPOSABLE } from '../../decision/questions/finding-variables.ts';
import type { Variable } from '../../decision/questions/variable.ts';
import { printComparison } from '../../documents/terminal/comparison.ts';
import { TREATMENT_WORDS } from '../../documents/terminal/labels.ts';
import { paragraph } from '../../documents/terminal/layout.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { openCase } from '../../store/case-store.ts';
import { openStudio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type Action, asOf, studioOptions } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const context = contextOf(studio, asOf(typed, terminal));
  const { knowledge } = context;
  const [name = '', ...written] = typed.args;
  const opened = await openCase(name, studio);
  const { alone, variables } = supposable(opened.case, context);
  const read = (change: string) => readTurn(change, variables, knowledge.vocabulary);
  const faultOf = (change: string): Problem | undefined => {
    const result = read(change);
    return 'problem' in result ? result.problem : undefined;
  };
  const changes = written.length > 0 ? written : await askWhat(terminal, variables, faultOf);
  const turns: Change[] = [];
  const problems: Problem[] = [];
  for (const change of changes) {
    const result = read(change);
    if ('turn' in result) turns.push(result.turn);
    else problems.push(result.problem);
  }
  if (problems.length > 0) throw new ProblemError(problems);
  const changed = turns.reduce((sofar, { variable, value }) => variable.set(sofar, value), alone);
  const before = (await decide(alone, context)).answer;
  const after = (await decide(changed, context)).answer;
  const comparison = compareAnswers(
    before,
    after,
    turns.map(({ variable, value }) => ({
      finding: variable.id,
      label: variable.label,
      from: variable.current === undefined ? 'not known' : variable.say(variable.current),
      to: variable.say(value),
    })),
  );
  if (before.chosen !== null)
    terminal.err(
      paragraph(
        `Our advice is compared; "${TREATMENT_WORDS[before.chosen.treatment]}", chosen on ${before.chosen.on}, is not part of it.`,
        { color: false, width: terminal.width },
      ),
    );
  if (typed.options.json === true) terminal.out(JSON.stringify(comparison, null, 2));
  else
    terminal.out(
      printComparison(opened.case.case, comparison, { color: terminal.color, width: terminal.width }),
    );
  return 0;
};

/** Everything that may be supposed of a case: what the search for changes turns, and the client's figures beside it. */
function supposable(
  quiltCase: QuiltCase,
  context: DecisionContext,
): { alone: QuiltCase; variables: Variable[] } {
  const { alone, variables } = variablesOf(quiltCase, context);
  const { knowledge, practice } = context;
  const { units, currency } = practice.settings;
  const all = findingVariables(alone, knowledge, { units, currency }, SUPPOSABLE);
  return { alone, variables: [...variables, ...all.filter(({ id }) => SUPPOSABLE.has(id))] };
}

/** Asks which finding and which value, where none was given and somebody is there to answer. */
async function askWhat(
  terminal: Terminal,
  variables: readonly Variable[],
  faultOf: (change: string) => Problem | undefined,
): Promise<string[]> {
  if (!terminal.canAsk) {
    throw new ProblemError([
      {
        code: 'needs-terminal',
        severity: 'error',
        what: 'nothing to change was named',
        cure: 'Add finding=value, such as intended_use=storage.',
      },
    ]);
  }
  const { askForChange } = await import('../../interview/what-if.ts');
  return askForChange(variables, faultOf, terminal).catch((error: unknown) => {
    if (!(error instanceof Error) || error.name !== 'ExitPromptError') throw error;
    const cure = 'Nothing was written: a supposition never changes the case.';
    throw new ProblemError([{ code: 'interrupted', severity: 'error', what: 'Interrupted', cure }]);
  });
}
