import { type Edit, editCase } from '../casebook/edit-case.ts';
import { readCase } from '../casebook/read-case.ts';
import { saveText } from '../casebook/save-text.ts';
import { findingReader } from '../findings/validators.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { OpenCase } from './open-case.ts';
import { relativeName, type Studio } from './studio.ts';
import type { Terminal } from './terminal.ts';

/**
 * Adds an entry to a list of a case, after other edits. The case is read again with it before anything is written: an
 * entry that contradicts the rest is refused and the file stays as it was. Returns warnings that came with it.
 */
export const appendEntry = async (
  opened: OpenCase,
  list: 'followups' | 'log' | 'treated',
  entry: Readonly<Record<string, unknown>>,
  before: readonly Edit[],
  studio: Studio,
  terminal: Terminal,
): Promise<readonly Problem[]> => {
  const index = opened.case[list]?.length ?? 0;
  const empty = index === 0;
  const edit: Edit = empty ? { path: [list], value: [entry] } : { path: [list, index], value: entry };
  const text = editCase(opened.source, [...before, edit]);
  const reading = readCase(relativeName(opened.path), text, findingReader(studio.knowledge.vocabulary));
  if (reading.case === undefined)
    throw new ProblemError(reading.problems.filter(({ severity }) => severity === 'error'));
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
  return reading.problems;
};

/** Takes what was not given out of an entry. */
export const given = (entry: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined));
