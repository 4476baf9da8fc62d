import type { ProblemCode } from '../problems/codes.ts';
import { printProblems } from '../problems/print.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Terminal } from './terminal.ts';

/** 0 done · 1 a check failed or the answer changed · 2 wrong use or bad input · 3 no terminal to ask in · 4 disk or tool fault · 130 interrupted. */
export type ExitCode = 0 | 1 | 2 | 3 | 4 | 130;

const EXIT_CODES: Partial<Record<ProblemCode, ExitCode>> = {
  'needs-terminal': 3,
  'cannot-read': 4,
  'cannot-write': 4,
  internal: 4,
  interrupted: 130,
};

const exitCodeOf = (problems: readonly Problem[]): ExitCode => {
  const [first] = problems.filter((problem) => problem.severity === 'error');
  return (first === undefined ? undefined : EXIT_CODES[first.code]) ?? 2;
};

/** Runs a command and turns whatever it throws into a message and an exit code; never a stack trace. */
export async function guard(terminal: Terminal, command: () => Promise<ExitCode>): Promise<ExitCode> {
  try {
    return await command();
  } catch (error) {
    const problems = error instanceof ProblemError ? error.problems : [unexpected(error)];
    terminal.err(printProblems(problems, { color: terminal.color, width: terminal.width }));
    return exitCodeOf(problems);
  }
}

/** Ctrl-C in a prompt arrives as an error of this name. */
function unexpected(error: unknown): Problem {
  if (error instanceof Error && error.name === 'ExitPromptError') {
    return { code: 'interrupted', severity: 'error', what: 'Interrupted' };
  }
  return {
    code: 'internal',
    severity: 'error',
    what: error instanceof Error ? error.message : String(error),
  };
}
