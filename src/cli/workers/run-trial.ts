import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { CaseChange } from '../../analysis/compare.ts';
import type { CasePlace } from '../../store/case-files.ts';
import { inOrder } from './in-order.ts';
import type { Batch, Trial, TrialData } from './trial.ts';

/** Built, this lies beside the part that holds these lines; run from source there is none, and one thread does the work. */
const WORKER = new URL('./try-worker.js', import.meta.url);

/** A worker takes a moment to read the rules: fewer cases than this are tried sooner without. */
const WORTH_WORKERS = 200;
const IN_A_BATCH = 20;

/** As many workers as there are cores to use, where there is work for them. */
export const usualWorkers = (cases: number): number => (cases < WORTH_WORKERS ? 1 : availableParallelism());

/** Tries the books on all cases, by `count` workers, and takes what changes in the order of the cases. */
export async function runTrial(
  { trial, data }: { readonly trial: Trial; readonly data: TrialData },
  count: number,
  places: readonly CasePlace[],
  take: (changes: readonly CaseChange[]) => void,
): Promise<void> {
  const batches = inBatches(places);
  if (count > 1 && existsSync(fileURLToPath(WORKER)))
    return inOrder<Batch, readonly CaseChange[]>({ file: WORKER, count, data }, batches, take);
  for (const batch of batches) take(await trial.run(batch));
}

function* inBatches(places: readonly CasePlace[]): Generator<Batch, void> {
  for (let from = 0; from < places.length; from += IN_A_BATCH) yield places.slice(from, from + IN_A_BATCH);
}
