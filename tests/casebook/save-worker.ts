import { loadText } from '../../src/store/load-text.ts';
import { saveText } from '../../src/store/save-text.ts';

// Run in a process of its own: tries to replace a file by a text of the given size, or adds one line many times.
const [, , path = '', mode = '', amount = '0', name = ''] = process.argv;

if (mode === 'grow') {
  try {
    const expected = await loadText(path);
    await saveText(path, 'y'.repeat(Number(amount)), { expected, stamp: 'then' });
    console.log('saved');
  } catch (error) {
    console.log(error instanceof Error ? error.message : 'unknown');
  }
} else {
  let refused = 0;
  for (let line = 0; line < Number(amount); ) {
    const expected = await loadText(path);
    try {
      await saveText(path, `${expected}${name} ${line}\n`, { expected, stamp: `${name}-${line}` });
      line += 1;
    } catch {
      refused += 1;
    }
  }
  console.log(refused);
}
