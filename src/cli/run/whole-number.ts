import { ProblemError } from '../../problems/problem.ts';
import { type Typed, textOption } from '../command.ts';

/** An option that is a whole number within bounds, both included; undefined where it was not given. */
export function wholeNumber(typed: Typed, name: string, least: number, most: number): number | undefined {
  const given = textOption(typed, name);
  if (given === undefined) return undefined;
  const value = /^\d+$/.test(given.trim()) ? Number(given) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new ProblemError([
    {
      code: 'out-of-range',
      severity: 'error',
      what: `--${name} is "${given}"; it should be a whole number from ${least} to ${most}`,
      cure: `Write digits alone, such as --${name} ${Math.max(least, 2)}.`,
    },
  ]);
}
