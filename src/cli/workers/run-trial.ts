import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { CasePlace } from '../all-cases.ts';
import { inOrder } from './in-order.ts';
import type { Batch, Trial, TrialData, Tried } from './trial.ts';

/** Built, this lies beside the program; run from source there is none, and the work is done in one thread. */
const WORKER = new URL('./try-worker.js', import.meta.url);

/** A worker takes a moment to read the rules: fewer cases than this are tried sooner without. */
const WORTH_WORKERS = 200;
const IN_A_BATCH = 20;

/** As many workers as there are cores to use, where there is work for them. */
export const usualWorkers = (cases: number): number => (cases < WORTH_WORKERS ? 1 : availableParallelism());

/** Tries the books on all batches, by `count` workers, and takes what changes in the order of the cases. */
export async function runTrial(
  trial: Trial,
  data: TrialData,
  count: number,
  batches: Iterator<Batch>,
  take: (tried: Tried) => void,
): Promise<void> {
  if (count > 1 && existsSync(fileURLToPath(WORKER)))
    return inOrder<Batch, Tried>({ file: WORKER, count, data }, batches, take);
  for (let next = batches.next(); next.done !== true; next = batches.next())
    take(await trial.run(next.value));
}

export function* batchesOfFiles(places: readonly CasePlace[]): Generator<Batch, void> {
  for (let from = 0; from < places.length; from += IN_A_BATCH)
    yield { places: places.slice(from, from + IN_A_BATCH) };
}

export function* batchesOfGenerated(seed: number, count: number): Generator<Batch, void> {
  for (let from = 1; from <= count; from += IN_A_BATCH)
    yield { seed, from, to: Math.min(from + IN_A_BATCH, count + 1) };
}
