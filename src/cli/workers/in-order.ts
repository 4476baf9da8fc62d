import { Worker } from 'node:worker_threads';
import { type Problem, ProblemError } from '../../problems/problem.ts';

/** What a worker is asked, and what it answers: the result, or why there is none. */
export interface Asked<Task> {
  readonly number: number;
  readonly task: Task;
}
export type Answered<Result> =
  | { readonly number: number; readonly result: Result }
  | { readonly number: number; readonly problems: readonly Problem[] }
  | { readonly number: number; readonly fault: string };

/** Tasks a worker is given before the first comes back, so that it never waits for the next. */
const AHEAD = 2;
/** Results held back for one that is late, as a multiple of what is being worked on: memory stays bounded. */
const HELD = 8;

/** Megabytes of a thread. Much dies young here; a wider nursery keeps it from being moved about first. */
const LIMITS = { maxYoungGenerationSizeMb: 96, maxOldGenerationSizeMb: 1024 } as const;

export interface Crew {
  readonly file: URL;
  readonly count: number;
  /** Given to every worker at its start. */
  readonly data: unknown;
}

/**
 * Spreads tasks over worker threads and takes the results in the order of the tasks, whichever comes first: the same
 * however many workers there are. The first fault ends all of them and is thrown. Nothing is handed out that is more
 * than a few tasks ahead of the last result taken.
 */
export async function inOrder<Task, Result>(
  { file, count, data }: Crew,
  tasks: Iterator<Task>,
  take: (result: Result) => void,
): Promise<void> {
  const workers: Worker[] = [];
  try {
    await new Promise<void>((done, fail) => {
      const early = new Map<number, Result>();
      let [handed, taken, over] = [0, 0, false];
      const hand = (worker: Worker): void => {
        if (over || handed - taken >= HELD * count) return;
        const next = tasks.next();
        if (next.done === true) over = true;
        else worker.postMessage({ number: handed++, task: next.value } satisfies Asked<Task>);
      };
      const accept = (number: number, result: Result): void => {
        early.set(number, result);
        for (; early.has(taken); taken += 1) {
          take(early.get(taken) as Result);
          early.delete(taken);
        }
        for (const worker of workers) hand(worker);
        if (over && taken === handed) done();
      };
      for (let index = 0; index < count; index += 1) {
        const worker = new Worker(file, { workerData: data, resourceLimits: LIMITS });
        workers.push(worker);
        worker.on('message', (answer: Answered<Result>) => {
          try {
            if ('result' in answer) accept(answer.number, answer.result);
            else fail('problems' in answer ? new ProblemError(answer.problems) : new Error(answer.fault));
          } catch (error) {
            fail(error);
          }
        });
        worker.on('error', (error) => fail(new Error(`a worker thread stopped: ${error.message}`)));
        worker.on('exit', (code) => {
          if (code !== 0) fail(new Error(`a worker thread ended with exit code ${code}`));
        });
        for (let ahead = 0; ahead < AHEAD; ahead += 1) hand(worker);
      }
      if (over && taken === handed) done();
    });
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}
