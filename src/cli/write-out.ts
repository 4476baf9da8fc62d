import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import { saveText } from '../casebook/save-text.ts';
import type { Terminal } from './terminal.ts';

/** Writes a page to a file, over an older one of that name (kept under .history), or to the terminal for "-". */
export const writeOut = async (file: string, text: string, terminal: Terminal): Promise<void> => {
  if (file === '-') {
    terminal.out(text);
    return;
  }
  const path = resolve(file);
  const expected = existsSync(path) ? await loadText(path) : undefined;
  await saveText(path, text, { ...(expected === undefined ? {} : { expected }), stamp: terminal.stamp() });
  terminal.err(`Written to ${file}.`);
};
