import { type CodeEntry, entry } from './entry.ts';

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
