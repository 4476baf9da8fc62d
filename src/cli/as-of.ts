import { ProblemError } from '../problems/problem.ts';
import { readDate } from '../quantities/date.ts';
import { type Typed, textOption } from './command.ts';
import type { Terminal } from './terminal.ts';

/** The day whose rules hold: as given, else today. */
export function asOf(typed: Typed, terminal: Terminal): string {
  const given = textOption(typed, 'asOf');
  if (given === undefined) return terminal.today();
  if (readDate(given) === undefined) {
    throw new ProblemError([{ code: 'bad-date', severity: 'error', what: `"${given}" is not a date` }]);
  }
  return given;
}
