import { Lexer } from 'yaml';
import type { Problem } from '../problems/problem.ts';
import { textPlaces } from './text-place.ts';

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
