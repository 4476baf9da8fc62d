import {
  type Document,
  type ErrorCode,
  isCollection,
  isMap,
  isPair,
  isScalar,
  Lexer,
  type Scalar,
  visit,
  type YAMLError,
  type YAMLMap,
} from 'yaml';
import { byPlace, type Problem } from '../problems/problem.ts';
import { keyText, type TextPlaces, textPlaces } from './source.ts';

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

/**
 * Characters that steer a terminal or turn the direction of writing: nobody sees them, and what is shown is then not
 * what stands there (Unicode Technical Report 36, 2.10, for the directions). Quotes can bring them in as \\e or \\u202E.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what this looks for
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u0084\u0086-\u009F\u200E\u200F\u202A-\u202E\u2066-\u2069]/;

/** Names that stand in a group already. The library compares each with every other, which takes minutes in a long list. */
const repeatedKeys = ({ items }: YAMLMap): Scalar[] => {
  const seen = new Set<string>();
  return items.flatMap(({ key }) => {
    if (!isScalar(key)) return [];
    const name = keyText(key);
    if (seen.has(name)) return [key];
    seen.add(name);
    return [];
  });
};

/** Sound YAML that is not used here: borrowed values, merged groups, names that are themselves groups. */
export const refusedProblems = (doc: Document, places: TextPlaces): Problem[] => {
  const problems: Problem[] = [];
  const alias = (what: string, offset: number, length: number): void => {
    problems.push({ code: 'yaml-alias', severity: 'error', what, place: places.at(offset, length) });
  };
  const duplicate = (key: Scalar): void => {
    const [start, end] = key.range ?? [0, 1];
    const what = `${keyText(key)} stands twice in the same group`;
    problems.push({
      code: 'yaml-duplicate-key',
      severity: 'error',
      what,
      place: places.at(start, end - start),
    });
  };
  visit(doc, {
    Alias: (_, node) => {
      const [start, end] = node.range ?? [0, 1];
      alias(`*${node.source} borrows a value from elsewhere in the file`, start, end - start);
    },
    Node: (key, node, parents) => {
      if (isMap(node)) for (const twice of repeatedKeys(node)) duplicate(twice);
      if ('anchor' in node && node.anchor) {
        // The anchor stands just before the node it names; find it rather than point beside it.
        const from = node.range?.[0] ?? 0;
        const found = places.at(from).text.lastIndexOf(`&${node.anchor}`);
        const place = places.at(from);
        problems.push({
          code: 'yaml-alias',
          severity: 'error',
          what: `&${node.anchor} marks a value to be borrowed elsewhere`,
          place: found === -1 ? place : places.onLine(place.line, found + 1, node.anchor.length + 1),
        });
      }
      const unseen = isScalar(node) && typeof node.value === 'string' ? UNSEEN.exec(node.value) : null;
      if (unseen) {
        const shown = `U+${unseen[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
        const [from, to] = node.range ?? [0, 1];
        problems.push({
          code: 'not-text',
          severity: 'error',
          what: `there is a character in this text that cannot be seen (${shown})`,
          why: 'A terminal or a page would act on it instead of showing it.',
          cure: 'Write the text again without it.',
          place: places.at(from, to - from),
        });
      }
      if (key === 'key' && isScalar(node) && node.value === '<<') {
        alias('<< merges another group into this one', node.range?.[0] ?? 0, 2);
      }
      if (key === 'key' && isScalar(node) && node.value === '__proto__') {
        // The one name that many programs, zod among them, pass over in silence.
        problems.push({
          code: 'unknown-key',
          severity: 'error',
          what: '__proto__ cannot be used as a name',
          place: places.at(node.range?.[0] ?? 0, 9),
        });
      }
      if (key === 'key' && isCollection(node) && isPair(parents.at(-1))) {
        problems.push({
          code: 'yaml-syntax',
          severity: 'error',
          what: 'a list or group stands where a name belongs',
          cure: 'Write a plain name before the colon.',
          place: places.at(node.range?.[0] ?? 0),
        });
      }
    },
  });
  return problems;
};

/** Characters. Case and rule files run to tens of kilobytes; this is two hundred times that. */
const LARGEST = 2_000_000;
/** Lines and entries, counted as line breaks and commas. Shipped files have two thousand; these take a second to read. */
const MOST = 40_000;
/** Levels. Shipped files use six; the yaml library aborts the whole process near ten thousand. */
const DEEPEST = 60;

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what this looks for
const NOT_TEXT = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFD\uFFFE\uFFFF]/;

/** A place nested too deeply to be meant, as an offset; counted in tokens, so that maps and prose do not count. */
const tooDeepAt = (text: string): number | undefined => {
  // A cheap look first: only a text with many brackets or deep indents is worth reading twice.
  const brackets = text.split(/[[{]/).length;
  if (brackets <= DEEPEST && !/^[ \-?:]{60}/m.test(text)) return undefined;
  let offset = 0;
  let flow = 0;
  let onLine = 0;
  let lineStart = true;
  for (const token of new Lexer().lex(text)) {
    if (token === '[' || token === '{') flow += 1;
    else if (token === ']' || token === '}') flow = Math.max(0, flow - 1);
    else if (token === '-' || token === '?') onLine += 1;
    else if (token === '\n' || token === '\r\n') {
      onLine = 0;
      lineStart = true;
      offset += token.length;
      continue;
    } else if (lineStart && /^ +$/.test(token) && token.length > 4 * DEEPEST) onLine = DEEPEST + 1;
    lineStart = false;
    if (flow > DEEPEST || onLine > DEEPEST) return offset;
    // The lexer's own markers are not part of the text.
    if (!'\u0002\u001F\u0018'.includes(token)) offset += token.length;
  }
  return undefined;
};

/** What keeps a text from being read at all. The first such thing is enough. */
export const unreadable = (file: string, text: string): Problem | undefined => {
  if (text.length > LARGEST) {
    const size = (text.length / 1_000_000).toFixed(1);
    return {
      code: 'too-large',
      severity: 'error',
      what: `${file} holds ${size} million characters; the most is 2 million`,
      place: { file, line: 1, column: 1, length: 1, text: '' },
    };
  }
  const parts = text.match(/[\n,]/g)?.length ?? 0;
  if (parts > MOST) {
    return {
      code: 'too-large',
      severity: 'error',
      what: `${file} holds ${parts} lines and entries; the most is ${MOST}`,
      place: { file, line: 1, column: 1, length: 1, text: '' },
    };
  }
  const bad = NOT_TEXT.exec(text);
  if (bad) {
    const shown = `U+${bad[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
    return {
      code: 'not-text',
      severity: 'error',
      what: `there is a character here that no text holds (${shown})`,
      place: textPlaces(file, text).at(bad.index),
    };
  }
  const deep = tooDeepAt(text);
  if (deep === undefined) return undefined;
  return {
    code: 'too-deep',
    severity: 'error',
    what: `more than ${DEEPEST} levels stand inside each other here`,
    place: textPlaces(file, text).at(deep),
  };
};
