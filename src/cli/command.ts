import type { ProblemCode } from '../problems/codes.ts';
import { printProblems } from '../problems/print.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { readDate } from '../quantities/date.ts';
import type { Terminal } from '../store/terminal.ts';

/** What the person typed: arguments by position, options by their long name in camel case. */
export interface Typed {
  readonly args: readonly string[];
  readonly options: Readonly<Record<string, unknown>>;
}

/** What a command does. Modules that do it are loaded when the command is used, so that --help stays quick. */
export type Action = (typed: Typed, terminal: Terminal) => Promise<ExitCode>;

/** How a command is written on the command line: under specs/. */
export interface CommandSpec {
  /** Words after `mendwise`: `decide`, or `rules show`. */
  readonly name: string;
  readonly summary: string;
  /** In commander's notation: `<case>`, `[rule]`, `[finding=value...]`. */
  readonly args: readonly { readonly name: string; readonly help: string }[];
  readonly options: readonly {
    readonly flags: string;
    readonly help: string;
    /** May be given more than once; its value is then a list. */
    readonly repeats?: true;
  }[];
  readonly example?: string;
  /** The work of the command, which may hang on what was typed. */
  load(typed: Typed): Promise<{ readonly action: Action }>;
}

/** Options that stand on most commands. */
export const STUDIO_OPTIONS = [
  { flags: '--studio <folder>', help: 'the studio folder (default: the current one)' },
  { flags: '--rules <folder>', help: 'use the rules in this folder' },
] as const;
export const AS_OF = {
  flags: '--as-of <date>',
  help: 'decide by the rules in force on this day, like 2026-03-05',
} as const;
export const JSON_OPTION = { flags: '--json', help: 'print data for scripts' } as const;

/** A text option, or undefined where it was not given. */
export const textOption = (typed: Typed, name: string): string | undefined => {
  const value = typed.options[name];
  return typeof value === 'string' ? value : undefined;
};

export const studioOptions = (typed: Typed): { studio?: string; rules?: string } => {
  const studio = textOption(typed, 'studio');
  const rules = textOption(typed, 'rules');
  return { ...(studio === undefined ? {} : { studio }), ...(rules === undefined ? {} : { rules }) };
};

/** An option that may be given more than once. */
export const listOption = (typed: Typed, name: string): readonly string[] => {
  const value = typed.options[name];
  return Array.isArray(value) ? value.filter((each) => typeof each === 'string') : [];
};

/** Every question has an equivalent here: the same names as in a case file, or a finding's own. */
export const INTERVIEW_OPTIONS = [
  {
    flags: '--set <path=value>',
    help: 'answer by its place in the case file or its finding, such as damp=no; may be repeated',
    repeats: true,
  },
  { flags: '--from <file>', help: 'take answers from a part of a case file' },
  { flags: '--yes', help: 'ask nothing: write what is given' },
  ...STUDIO_OPTIONS,
] as const;

/** 0 done · 1 a check failed or the answer changed · 2 wrong use or bad input · 3 no terminal to ask in · 4 disk or tool fault · 130 interrupted. */
export type ExitCode = 0 | 1 | 2 | 3 | 4 | 130;

const EXIT_CODES: Partial<Record<ProblemCode, ExitCode>> = {
  'needs-terminal': 3,
  'cannot-read': 4,
  'cannot-write': 4,
  internal: 4,
  interrupted: 130,
};

const exitCodeOf = (problems: readonly Problem[]): ExitCode => {
  const [first] = problems.filter((problem) => problem.severity === 'error');
  return (first === undefined ? undefined : EXIT_CODES[first.code]) ?? 2;
};

/** Runs a command and turns whatever it throws into a message and an exit code; never a stack trace. */
export async function guard(terminal: Terminal, command: () => Promise<ExitCode>): Promise<ExitCode> {
  try {
    return await command();
  } catch (error) {
    const problems = error instanceof ProblemError ? error.problems : [unexpected(error)];
    terminal.err(printProblems(problems, { color: terminal.color, width: terminal.width }));
    return exitCodeOf(problems);
  }
}

/** Ctrl-C in a prompt arrives as an error of this name. */
function unexpected(error: unknown): Problem {
  if (error instanceof Error && error.name === 'ExitPromptError') {
    return { code: 'interrupted', severity: 'error', what: 'Interrupted' };
  }
  return {
    code: 'internal',
    severity: 'error',
    what: error instanceof Error ? error.message : String(error),
  };
}

/** The day whose rules hold: as given, else today. */
export function asOf(typed: Typed, terminal: Terminal): string {
  const given = textOption(typed, 'asOf');
  if (given === undefined) return terminal.today();
  if (readDate(given) === undefined) {
    throw new ProblemError([{ code: 'bad-date', severity: 'error', what: `"${given}" is not a date` }]);
  }
  return given;
}
