import { resolve } from 'node:path';
import type { CaseChange } from '../../../analysis/compare.ts';
import { printTried } from '../../../documents/terminal/coverage.ts';
import { ProblemError } from '../../../problems/problem.ts';
import { allCasePlaces } from '../../../store/case-files.ts';
import { type Action, asOf, studioOptions, type Typed, textOption } from '../../command.ts';
import { runTrial, usualWorkers } from '../../workers/run-trial.ts';
import { Trial, type TrialData } from '../../workers/trial.ts';

export const action: Action = async (typed, terminal) => {
  const data: TrialData = {
    studio: studioOptions(typed),
    candidate: candidateFolder(typed),
    asOf: asOf(typed, terminal),
  };
  const workers = wholeNumber(typed, 'workers', 1, 256);
  const trial = await Trial.open(data);
  const rules = trial.books.changed.map(({ id }) => id);
  const style = { color: terminal.color, width: terminal.width };
  const places = await allCasePlaces(trial.studio);
  const changes: CaseChange[] = [];
  await runTrial({ trial, data }, workers ?? usualWorkers(places.length), places, (changed) => {
    changes.push(...changed);
  });
  if (typed.options.json === true)
    terminal.out(
      JSON.stringify({ as_of: data.asOf, cases: places.length, rules_changed: rules, changes }, null, 2),
    );
  else terminal.out(printTried(changes, rules, places.length, style));
  return changes.length > 0 ? 1 : 0;
};

function candidateFolder(typed: Typed): string {
  const folder = textOption(typed, 'with');
  if (folder !== undefined) return resolve(folder);
  throw usage(
    'rules try needs the rules to try',
    'Add --with and the folder, such as --with rules-next; copy the rules there and change the copy.',
  );
}

const usage = (what: string, cure: string): ProblemError =>
  new ProblemError([{ code: 'usage', severity: 'error', what, cure }]);

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
