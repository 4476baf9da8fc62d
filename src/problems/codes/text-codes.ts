import { type CodeEntry, entry } from './entry.ts';

/** What can be wrong with a file before its shape is looked at. */
export const TEXT_CODES = {
  'not-text': entry(
    'The file is not readable text',
    'The file holds bytes that are not UTF-8 text, such as a picture, a word-processor file or UTF-16.',
    'Save it as plain text, encoding UTF-8, and try again.',
  ),
  'too-large': entry(
    'The file is too large',
    'Case and rule files are a few pages long; this one is far beyond that, so it is probably not what it seems.',
    'Check that the right file was named.',
  ),
  'yaml-syntax': entry(
    'The file cannot be read as YAML',
    'YAML shows structure by indentation, colons and dashes; one of them is out of place here.',
    'Compare the lines around the mark with a shipped example: same indentation with spaces, a space after each colon.',
  ),
  'yaml-duplicate-key': entry(
    'The same key stands twice',
    'One of the two would silently win, and nobody could say which was meant.',
    'Keep one of them.',
  ),
  'yaml-alias': entry(
    'Anchors and aliases are not used here',
    'A value borrowed from elsewhere in the file (&, *, <<) hides what a reader needs to see in place.',
    'Write the value out.',
  ),
  'yaml-many-documents': entry(
    'The file holds more than one document',
    'A line of three dashes starts a second document, and only one case or rulebook part belongs in a file.',
    'Put each into a file of its own.',
  ),
  'yaml-tab': entry(
    'A tab stands where spaces belong',
    'Tabs are as wide as each editor likes, so nobody can tell which lines belong together.',
    'Replace the tab with spaces; most editors can do that for the whole file.',
  ),
  'yaml-tag': entry(
    'Marks beginning with an exclamation mark are not used here',
    'Such a mark changes how a value is read in a way the reader of the file cannot see.',
    'Remove the mark, or put the value in quotes if the exclamation mark belongs to it.',
  ),
  'too-deep': entry(
    'The lines are nested too deeply',
    'No case or rule needs so many levels, so something was pasted or indented by mistake.',
    'Check brackets and indentation around the mark.',
  ),
  'empty-file': entry(
    'The file is empty',
    'There is nothing to read in it.',
    'Restore it, or start from a sample.',
  ),
} as const satisfies Record<string, CodeEntry>;
