import './read-once.ts';
import { loadText } from '../casebook/load-text.ts';
import { keepText } from './keep-text.ts';
import { CASES, type KeptCase, keptCasePath, readBy } from './kept-case.ts';
import { BUILD } from './kept-files.ts';
import { type OpenCase, openText } from './open-case.ts';
import type { Studio } from './studio.ts';

/** Reads a case and keeps what was read, where there was nothing to warn of. Throws ProblemError as `openCase` does. */
export async function readAndKeep(path: string, studio: Studio): Promise<OpenCase> {
  const text = await loadText(path);
  const opened = openText(path, text, studio);
  if (BUILD !== undefined && opened.warnings.length === 0) {
    const keep: KeptCase = { readBy: readBy(path, studio), text, case: opened.case };
    await keepText(CASES, keptCasePath(path, Buffer.byteLength(text)), JSON.stringify(keep));
  }
  return opened;
}
