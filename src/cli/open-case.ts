import { loadText } from '../casebook/load-text.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/validators.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Source } from '../source/source.ts';
import { casePath } from './case-path.ts';
import { relativeName, type Studio } from './studio.ts';
import { today } from './terminal.ts';

export interface OpenCase {
  readonly path: string;
  readonly case: QuiltCase;
  readonly source: Source;
  /** Warnings; errors are thrown. */
  readonly warnings: readonly Problem[];
}

/** Reads a case; throws ProblemError with everything wrong in it. */
export async function openCase(name: string, studio: Studio): Promise<OpenCase> {
  const path = casePath(name, studio);
  return openText(path, await loadText(path), studio);
}

/** The same from a text that was loaded before. */
export function openText(path: string, text: string, studio: Studio): OpenCase {
  const reading = readCase(relativeName(path), text, findingReader(studio.knowledge.vocabulary));
  if (reading.case === undefined || reading.source === undefined) throw new ProblemError(reading.problems);
  refuseFutureTreatments(reading.case, reading.source);
  return { path, case: reading.case, source: reading.source, warnings: reading.problems };
}

/** A stop is lifted by what was done, not by what is planned. */
function refuseFutureTreatments({ treated = [] }: QuiltCase, source: Source): void {
  const problems = treated.flatMap(({ hazard, on }, index): Problem[] =>
    on <= today()
      ? []
      : [
          {
            code: 'bad-date',
            severity: 'error',
            what: `${hazard.replaceAll('_', ' ')} is written down as dealt with on ${on}, which has not come yet`,
            why: 'A stop is lifted by what was done, not by what is planned.',
            cure: 'Write it down on the day it is done and confirmed.',
            place: source.place(['treated', index, 'on']),
          },
        ],
  );
  if (problems.length > 0) throw new ProblemError(problems);
}
