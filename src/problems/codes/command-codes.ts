import { type CodeEntry, entry } from './entry.ts';

/** What can be wrong with how a command was called. */
export const COMMAND_CODES = {
  usage: entry(
    'The command was not understood',
    'A word or option is not known here.',
    'See mendwise --help.',
  ),
  'needs-terminal': entry(
    'An interview needs a terminal',
    'Questions cannot be asked where nobody can answer, such as in a script or a pipe.',
    'Give the answers as options or in the file; the message names what is missing.',
  ),
  interrupted: entry(
    'Interrupted',
    'Ctrl-C was pressed.',
    'What was answered so far is kept; run the command again to go on.',
  ),
  internal: entry(
    'A fault in mendwise itself',
    'Something happened that the program did not expect. Nothing was written.',
    'Keep the file that caused it and report the message.',
  ),
} as const satisfies Record<string, CodeEntry>;
