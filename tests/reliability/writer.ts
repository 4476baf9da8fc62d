import { loadText } from '../../src/store/load-text.ts';
import { saveDraft, saveText } from '../../src/store/save-text.ts';

// Run in a process of its own until it is killed: writes one text after the other to a file, and prints the number of
// each once it is confirmed. Every text is long enough to be torn, and says how long it is.
const [, , path = '', way = 'save', first = '0'] = process.argv;
const textOf = (number: number): string => {
  const body = `answer: ${number}\n`.repeat(4000 + (number % 7) * 500);
  return `${number} ${body.length}\n${body}`;
};
const pause = (): Promise<void> => new Promise((done) => setImmediate(done));

// An interrupt ends the process as it would end a command that does not ask for anything.
let last = way === 'draft' ? await loadText(path).catch(() => undefined) : undefined;
for (let number = Number(first); ; number += 1) {
  const text = textOf(number);
  if (way === 'draft') {
    await saveDraft(path, text, last);
    last = text;
  } else {
    const expected = await loadText(path);
    await saveText(path, text, { expected, stamp: `2026-01-01T00-00-00-${String(number).padStart(6, '0')}` });
  }
  process.stdout.write(`${number}\n`);
  await pause();
}
