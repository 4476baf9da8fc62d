import { resolve } from 'node:path';
import type { CaseChange } from '../../analysis/compare.ts';
import { generatedCase, textOf } from '../../analysis/generated/generated-case.ts';
import { NOTHING, tallied } from '../../analysis/tried/tally.ts';
import { ProblemError } from '../../problems/problem.ts';
import { allCasePlaces } from '../all-cases.ts';
import { asOf } from '../as-of.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { printTallied } from '../print/tallied.ts';
import { printTried } from '../print/tried.ts';
import { batchesOfFiles, batchesOfGenerated, runTrial, usualWorkers } from '../workers/run-trial.ts';
import { Trial, type TrialData } from '../workers/trial.ts';
import { wholeNumber } from './whole-number.ts';

/** Examples shown of what changes among generated cases; more than anybody reads, and few enough to keep. */
const EXAMPLES = 10;

export const action: Action = async (typed, terminal) => {
  const data: TrialData = {
    studio: studioOptions(typed),
    candidate: candidateFolder(typed),
    asOf: asOf(typed, terminal),
  };
  const generated = wholeNumber(typed, 'generated', 1, 10_000_000);
  const seed = wholeNumber(typed, 'seed', 0, 2 ** 32 - 1);
  if (seed !== undefined && generated === undefined)
    throw usage('--seed says which cases to generate', 'Add --generated and how many, such as 1000.');
  const workers = wholeNumber(typed, 'workers', 1, 256);
  const trial = await Trial.open(data);
  const rules = trial.books.changed.map(({ id }) => id);
  const style = { color: terminal.color, width: terminal.width };
  const json = (answer: object): void =>
    terminal.out(JSON.stringify({ as_of: data.asOf, ...answer }, null, 2));

  if (generated !== undefined) {
    let tally = NOTHING;
    const from = seed ?? 1;
    const batches = batchesOfGenerated(from, generated);
    await runTrial(trial, data, workers ?? usualWorkers(generated), batches, (tried) => {
      tally = tallied(tally, tried, EXAMPLES);
    });
    const { examples, ...sums } = tally;
    if (typed.options.json === true) {
      const told = examples.map((example) => ({ ...example, text: textOfExample(example, trial, from) }));
      json({ generated, seed: from, rules_changed: rules, ...sums, examples: told });
    } else terminal.out(printTallied(tally, rules, from, style));
    return tally.changed > 0 ? 1 : 0;
  }

  const places = await allCasePlaces(trial.studio);
  const changes: CaseChange[] = [];
  await runTrial(trial, data, workers ?? usualWorkers(places.length), batchesOfFiles(places), (tried) => {
    changes.push(...tried.changes);
  });
  if (typed.options.json === true) json({ cases: places.length, rules_changed: rules, changes });
  else terminal.out(printTried(changes, rules, places.length, style));
  return changes.length > 0 ? 1 : 0;
};

/** The case file of an example, so that it can be looked at with every other command. */
const textOfExample = ({ case: name }: CaseChange, { books }: Trial, seed: number): string =>
  textOf(generatedCase(books.before.vocabulary, seed, Number(name.split('-').at(-1))));

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
