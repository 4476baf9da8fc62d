import type { Document, ErrorCode, YAMLError } from 'yaml';
import type { Problem } from '../problems/problem.ts';
import { byPlace } from '../problems/sort.ts';
import type { TextPlaces } from './text-place.ts';

/** The library's faults in a practitioner's words: what is wrong, and how to mend it. */
const WORDS: Partial<Record<ErrorCode, readonly [what: string, cure: string]>> = {
  BAD_INDENT: [
    'this line is not indented like its neighbours, or a bracket above it was not closed',
    'Start lines that belong together in the same column, and close every [ with ] and every { with }.',
  ],
  BAD_SCALAR_START: [
    'a value cannot begin with this character unless it stands in quotes',
    'Put the whole value in quotes, such as "@home".',
  ],
  BAD_DQ_ESCAPE: [
    'a backslash in double quotes is followed by a letter it does not go with',
    'Use single quotes around the value, or write two backslashes.',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    'there are two colons on this line, so it cannot be told where the value begins',
    'Put the value in quotes if the second colon belongs to it.',
  ],
  BLOCK_IN_FLOW: [
    'inside { } or [ ] a comma is missing between two entries',
    'Separate the entries with commas.',
  ],
  MISSING_CHAR: [
    'something is missing here: a closing quote, or a colon after the name',
    'Close every quote that was opened, and put a colon and a space after each name.',
  ],
  MULTILINE_IMPLICIT_KEY: [
    'this line has no colon followed by a space, so it is neither a name nor a value',
    'Write it as name, colon, space, value.',
  ],
  UNEXPECTED_TOKEN: [
    'this does not belong to what stands before it',
    'Check the indentation of this line and of the line before it, and any quotes or brackets left open.',
  ],
  BAD_DIRECTIVE: ['a line beginning with % is not used here', 'Remove the line.'],
  KEY_OVER_1024_CHARS: [
    'the name before this colon is over a thousand characters long',
    'Check for a missing line break or quote.',
  ],
};

const OTHERWISE = [
  'this cannot be read',
  'Compare the lines around the mark with a shipped example.',
] as const;

const one = (fault: YAMLError, text: string, places: TextPlaces): Problem => {
  const [start, end] = fault.pos;
  const place = places.at(start, end - start);
  const severity = 'error';
  if (fault.code === 'TAB_AS_INDENT' || /^ *\t/.test(place.text)) {
    const column = place.text.indexOf('\t') + 1;
    const what = 'there is a tab at the beginning of this line';
    return { code: 'yaml-tab', severity, what, place: places.onLine(place.line, column) };
  }
  if (fault.code === 'TAG_RESOLVE_FAILED') {
    return { code: 'yaml-tag', severity, what: `the mark ${text.slice(start, end)} is not used here`, place };
  }
  const [what, cure] = WORDS[fault.code] ?? OTHERWISE;
  return { code: 'yaml-syntax', severity, what, cure, place };
};

const lineOf = (problem: Problem): number => problem.place?.line ?? 0;

/** One slip often upsets the rest of its line and the lines after it: only what is not an echo of it stays. */
const withoutEchoes = (problems: readonly Problem[]): Problem[] => {
  const inOrder = [...problems].sort(byPlace);
  const tab = inOrder.find((problem) => problem.code === 'yaml-tab');
  const kept: Problem[] = [];
  let previous: Problem | undefined;
  for (const problem of inOrder) {
    const sameLine = previous && lineOf(previous) === lineOf(problem) && previous.code === problem.code;
    const runsOn = previous && lineOf(problem) - lineOf(previous) <= 1 && previous.what === problem.what;
    const afterTab = tab && problem.code === 'yaml-syntax' && lineOf(problem) >= lineOf(tab);
    // A key that stands twice or a tab is a slip of its own, wherever it stands.
    if (sameLine && previous?.place?.column === problem.place?.column) continue;
    if (problem.code === 'yaml-syntax' && (sameLine || runsOn || afterTab)) {
      if (runsOn) previous = problem;
      continue;
    }
    previous = problem;
    kept.push(problem);
  }
  return kept;
};

/** Every fault of syntax in the documents, by place. */
export const syntaxProblems = (docs: readonly Document[], text: string, places: TextPlaces): Problem[] =>
  withoutEchoes(
    docs.flatMap((doc) => [...doc.errors, ...doc.warnings]).map((fault) => one(fault, text, places)),
  );
