import { CODES } from './codes.ts';
import { byPlace, type Place, type Problem } from './problem.ts';

export interface PrintOptions {
  /** ANSI colours. Words and marks carry the meaning without them. */
  readonly color?: boolean;
  /** Columns of the terminal; source lines are cut to fit, sentences wrap. 80 unless given. */
  readonly width?: number;
}

type Ink = (text: string) => string;
const plain: Ink = (text) => text;
const ink =
  (code: number): Ink =>
  (text) =>
    `\u001B[${code}m${text}\u001B[0m`;

const INKS = { error: ink(31), warning: ink(33), strong: ink(1), faint: ink(2) };
const NO_INKS = { error: plain, warning: plain, strong: plain, faint: plain };

const wrap = (label: string, sentence: string, width: number): string => {
  const indent = ' '.repeat(label.length);
  const lines: string[] = [];
  let line = label;
  for (const word of sentence.split(/\s+/)) {
    if (line.length + 1 + word.length > width && line.trim() !== label.trim()) {
      lines.push(line);
      line = `${indent} ${word}`;
    } else line += ` ${word}`;
  }
  return [...lines, line].join('\n');
};

/** The part of a source line that fits beside its number, with the mark inside it. */
const cut = (place: Place, room: number): { text: string; before: string } => {
  const start = place.column - 1;
  const from = start <= room * 0.7 ? 0 : start - Math.floor(room * 0.4);
  const shown = place.text.slice(from, from + room);
  const head = from > 0 ? '…' : '';
  const tail = from + room < place.text.length ? '…' : '';
  const before = head + place.text.slice(from, start);
  // One blank for each character seen; a tab stays a tab so that the mark lands under its letter.
  const blanks = [...before].map((char) => (char === '\t' ? '\t' : ' ')).join('');
  return { text: `${head}${shown}${tail}`, before: blanks };
};

/** Where, what, the source line with a mark under it, why it matters and how to mend it. No line break at the end. */
export const printProblem = (problem: Problem, options: PrintOptions = {}): string => {
  const inks = options.color ? INKS : NO_INKS;
  const width = Math.max(40, options.width ?? 80);
  const { place, didYouMean } = problem;
  const entry = CODES[problem.code];
  const where = place ? `${place.file}:${place.line}:${place.column}: ` : '';
  const kind = inks[problem.severity](`${problem.severity}:`);
  const lines = [`${inks.strong(where)}${kind} ${problem.what}   ${inks.faint(`[${problem.code}]`)}`];
  const hint = didYouMean === undefined ? '' : ` did you mean "${didYouMean}"?`;
  if (place && place.text.trim() !== '') {
    const gutter = ` ${String(place.line).padStart(4)} | `;
    const { text, before } = cut(place, width - gutter.length - 2);
    const marked = [...place.text.slice(place.column - 1, place.column - 1 + place.length)].length;
    const carets = '^'.repeat(Math.max(1, Math.min(marked, text.length - before.length)));
    lines.push(`${inks.faint(gutter)}${text}`);
    lines.push(
      `${inks.faint(`${' '.repeat(gutter.length - 2)}| `)}${before}${inks[problem.severity](carets)}${hint}`,
    );
  } else if (hint !== '') lines.push(` ${hint}`);
  lines.push(wrap('  Why:', problem.why ?? entry.cause, width));
  lines.push(wrap('  Do:', problem.cure ?? entry.cure, width));
  return lines.join('\n');
};

const count = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;

/** "2 errors, 1 warning"; kinds that do not occur are left out. */
export const countProblems = (problems: readonly Problem[]): string => {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const warnings = problems.length - errors;
  const parts = [
    ...(errors > 0 ? [count(errors, 'error')] : []),
    ...(warnings > 0 ? [count(warnings, 'warning')] : []),
  ];
  return parts.length > 0 ? parts.join(', ') : 'no problems';
};

/** All problems, file by file and line by line, with a count at the end. Empty for an empty list. */
export const printProblems = (problems: readonly Problem[], options: PrintOptions = {}): string => {
  if (problems.length === 0) return '';
  const printed = [...problems].sort(byPlace).map((problem) => printProblem(problem, options));
  return `${printed.join('\n\n')}\n\n${countProblems(problems)}`;
};
