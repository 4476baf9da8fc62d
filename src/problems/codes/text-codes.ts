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

/** What can be wrong with the shape of a file or with a single value. */
export const SHAPE_CODES = {
  'unknown-key': entry(
    'A name that is not known here',
    'A misspelt name would be passed over in silence, and what was meant would count as unknown.',
    'Correct the spelling, or remove the line.',
  ),
  'missing-key': entry(
    'Something required is missing',
    'Without it the rest of the file cannot be understood.',
    'Add the line named in the message.',
  ),
  'wrong-kind': entry(
    'A value of the wrong kind',
    'The place wants another kind of value: a word, a number, a list or a group of lines.',
    'Write the value as the message shows.',
  ),
  'not-an-option': entry(
    'A value that is not one of the choices',
    'Rules compare against the listed choices only, so any other word could never match.',
    'Use one of the listed choices, or "unknown".',
  ),
  'out-of-range': entry(
    'A value outside what is possible',
    'A figure beyond the possible range is nearly always a slip of the pen or a wrong unit.',
    'Correct the figure or its unit.',
  ),
  'bad-quantity': entry(
    'A measure that cannot be read',
    'Lengths, areas, weights and shares need a number and a unit, such as 4 1/2 in, 12 cm, 60 in2, 3.2 lb or 5 %.',
    'Write number, space, unit.',
  ),
  'mixed-units': entry(
    'Inches and centimetres in one size',
    'Nobody measures one side with one tape and the other with another, so one of the two units is a slip.',
    'Write both sides in the same unit.',
  ),
  'bad-date': entry(
    'A date that cannot be read',
    'Dates are written year-month-day so that nobody mixes up day and month.',
    'Write it like 2026-03-05.',
  ),
} as const satisfies Record<string, CodeEntry>;
