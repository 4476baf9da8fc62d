import { basename, dirname } from 'node:path';
import { type Edit, editCase } from '../casebook/edit-case.ts';
import type { HazardLook, QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/read-answer.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Source } from '../source/source.ts';
import { loadText } from './load-text.ts';
import { saveText } from './save-text.ts';
import { hazardLooks, secondSurveyFiles } from './second-survey-files.ts';
import { casePath, relativeName, type Studio } from './studio.ts';
import { type Terminal, today } from './terminal.ts';

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
  const text = await loadText(path);
  const others = (await secondSurveyFiles(dirname(path))).get(basename(path).replace(/\.ya?ml$/i, '')) ?? [];
  return openText(path, text, studio, await hazardLooks(others, studio));
}

/** The same from texts that were loaded before. */
export function openText(
  path: string,
  text: string,
  studio: Studio,
  elsewhere: readonly HazardLook[],
): OpenCase {
  const reading = readCase(relativeName(path), text, findingReader(studio.knowledge.vocabulary), elsewhere);
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

interface Added {
  readonly list: 'followups' | 'log' | 'resurveys' | 'treated';
  readonly entry: Readonly<Record<string, unknown>>;
  /** Edits that go before it. */
  readonly before?: readonly Edit[];
}

/**
 * Adds an entry to a list of a case, after other edits. The case is read again with it before anything is written: an
 * entry that contradicts the rest is refused and the file stays as it was. Returns warnings that came with it.
 */
export const appendEntry = async (
  opened: OpenCase,
  { list, entry, before = [] }: Added,
  studio: Studio,
  terminal: Terminal,
): Promise<readonly Problem[]> => {
  const index = opened.case[list]?.length ?? 0;
  const empty = index === 0;
  const edit: Edit = empty ? { path: [list], value: [entry] } : { path: [list, index], value: entry };
  const text = editCase(opened.source, [...before, edit]);
  const reading = readCase(
    relativeName(opened.path),
    text,
    findingReader(studio.knowledge.vocabulary),
    opened.case.elsewhere,
  );
  if (reading.case === undefined) {
    const errors = reading.problems.filter(({ severity }) => severity === 'error');
    throw new ProblemError(errors.map((error) => placedIn(opened.source.text, error)));
  }
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
  return reading.problems;
};

/** What was refused never got into the file, so a line that is only in it has no place there. */
const placedIn = (text: string, { place, ...problem }: Problem): Problem =>
  place !== undefined && text.split('\n')[place.line - 1]?.trim() === place.text.trim()
    ? { ...problem, place }
    : problem;

/** Takes what was not given out of an entry. */
export const given = (entry: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined));

/** Writes that the work is done, and what was counted; the case is read with it first. */
export const finishOnly = async (
  opened: OpenCase,
  edits: readonly Edit[],
  studio: Studio,
  terminal: Terminal,
): Promise<void> => {
  const text = editCase(opened.source, edits);
  const reading = readCase(
    relativeName(opened.path),
    text,
    findingReader(studio.knowledge.vocabulary),
    opened.case.elsewhere,
  );
  if (reading.case === undefined) throw new ProblemError(reading.problems);
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
};
