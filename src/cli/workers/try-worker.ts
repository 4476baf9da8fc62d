import { parentPort, workerData } from 'node:worker_threads';
import type { CaseChange } from '../../analysis/compare.ts';
import type { Problem } from '../../problems/problem.ts';
import { memoize } from '../../quantities/memo.ts';
import type { Answered, Asked } from './in-order.ts';
import { type Batch, Trial, type TrialData } from './trial.ts';

// The entry of a worker thread: a bundle of its own beside the program, see src/build.mjs.
const trial = memoize(() => Trial.open(workerData as TrialData));

/** Known by what it holds: a class does not come through from another bundle. */
const problemsOf = (error: unknown): readonly Problem[] | undefined =>
  error instanceof Error && 'problems' in error ? (error.problems as readonly Problem[]) : undefined;

async function answer({ number, task }: Asked<Batch>): Promise<Answered<readonly CaseChange[]>> {
  try {
    return { number, result: await (await trial()).run(task) };
  } catch (error) {
    const problems = problemsOf(error);
    if (problems !== undefined) return { number, problems };
    return { number, fault: error instanceof Error ? error.message : String(error) };
  }
}

parentPort?.on('message', (asked: Asked<Batch>) => {
  void answer(asked).then((answered) => parentPort?.postMessage(answered));
});
