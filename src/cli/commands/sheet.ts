import { AS_OF, type CommandSpec, STUDIO_OPTIONS } from '../command.ts';
import { REPLACE_OPTION } from '../write-out.ts';

export const sheetCommand: CommandSpec = {
  name: 'sheet',
  summary:
    'write a document: decision sheet, letter, estimate, report, care sheet or survey for the client, work order for whoever sews',
  args: [{ name: '<case>', help: 'a case file, or the name of a case in the studio' }],
  options: [
    ...STUDIO_OPTIONS,
    AS_OF,
    {
      flags: '--kind <kind>',
      help: 'decision, letter (whichever fits), decline, refer, not-yet, estimate, work, report, care or survey (default: what the answer asks for)',
    },
    { flags: '--format <format>', help: 'html, markdown or text (default: by the file’s ending, else html)' },
    {
      flags: '--out <file>',
      help: 'where to write; - prints it (default: CASE-KIND.html in the current folder)',
    },
    { flags: '--quick', help: 'leave out what would change the answer and how firm it is' },
    REPLACE_OPTION,
    { flags: '--open', help: 'open it when it is written' },
  ],
  example: 'mendwise sheet cases/lantern-ninepatch.yaml --kind estimate --out estimate.html',
  load: () => import('../run/sheet.ts'),
};
