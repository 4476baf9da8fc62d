import { type Edit, editCase } from '../casebook/edit-case.ts';
import { readCase } from '../casebook/read-case.ts';
import { saveText } from '../casebook/save-text.ts';
import { findingReader } from '../findings/validators.ts';
import { ProblemError } from '../problems/problem.ts';
import type { OpenCase } from './open-case.ts';
import { relativeName, type Studio } from './studio.ts';
import type { Terminal } from './terminal.ts';

/** Writes that the work is done, and what was counted; the case is read with it first. */
export const finishOnly = async (
  opened: OpenCase,
  edits: readonly Edit[],
  studio: Studio,
  terminal: Terminal,
): Promise<void> => {
  const text = editCase(opened.source, edits);
  const reading = readCase(relativeName(opened.path), text, findingReader(studio.knowledge.vocabulary));
  if (reading.case === undefined) throw new ProblemError(reading.problems);
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
};
