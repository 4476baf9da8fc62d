import { printProblems } from '../problems/print.ts';
import type { Problem } from '../problems/problem.ts';
import type { Terminal } from './terminal.ts';

/** Prints on stderr what is wrong or odd; nothing where there is nothing. */
export const tellProblems = (problems: readonly Problem[], terminal: Terminal): void => {
  if (problems.length > 0) terminal.err(printProblems(problems, terminal));
};
