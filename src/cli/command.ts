import type { ExitCode } from './guard.ts';
import type { Terminal } from './terminal.ts';

/** What the person typed: arguments by position, options by their long name in camel case. */
export interface Typed {
  readonly args: readonly string[];
  readonly options: Readonly<Record<string, unknown>>;
}

/** What a command does. Modules that do it are loaded when the command is used, so that --help stays quick. */
export type Action = (typed: Typed, terminal: Terminal) => Promise<ExitCode>;

/** How a command is written on the command line: one small file each under commands/. */
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
