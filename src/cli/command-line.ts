import { Command, CommanderError } from 'commander';
import type { Terminal } from '../store/terminal.ts';
import { type CommandSpec, type ExitCode, guard } from './command.ts';
import {
  casesCommand,
  decideCommand,
  enquiryCommand,
  logCommand,
  sheetCommand,
  surveyCommand,
  treatedCommand,
  whatifCommand,
} from './specs/cases.ts';
import { RULES_ANALYSIS, RULES_REVISE, rulesShowCommand } from './specs/rules.ts';
import {
  doctorCommand,
  explainCommand,
  followupCommand,
  helpersCommand,
  learnedCommand,
  regradeCommand,
  restoreCommand,
  startCommand,
} from './specs/studio.ts';

/** Parses what was typed, runs the command, and answers with the exit code. */
export async function commandLine(argv: readonly string[], terminal: Terminal): Promise<ExitCode> {
  let code: ExitCode = 0;
  const program = new Command('mendwise')
    .description('Decide with a client how far to go in repairing an old family quilt, and say why.')
    .version(VERSION, '--version', 'print the version')
    .helpOption('--help', 'show help')
    .helpCommand(false)
    .showSuggestionAfterError(true)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => terminal.out(text),
      writeErr: (text) => terminal.err(text),
      // Left to itself the library opens Node's streams to ask them.
      getOutHelpWidth: () => terminal.width,
      getErrHelpWidth: () => terminal.width,
      getOutHasColors: () => terminal.color,
      getErrHasColors: () => terminal.color,
    })
    .addHelpText(
      'after',
      '\nUnknown is a legal answer everywhere. The tool advises; a qualified person decides and signs.',
    );
  for (const spec of meant(argv)) {
    const command = commandFor(program, spec);
    command.action(async (...given: unknown[]) => {
      const options = command.opts<Record<string, unknown>>();
      const args = given
        .slice(0, -2)
        .flatMap((arg) => (Array.isArray(arg) ? arg : [arg]))
        .filter((arg) => typeof arg === 'string');
      const typed = { args, options };
      code = await guard(terminal, async () => (await spec.load(typed)).action(typed, terminal));
    });
  }
  try {
    if (argv.length === 0) program.outputHelp();
    else await program.parseAsync([...argv], { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    // Help and version end by an error of their own with exit code 0.
    return error.exitCode === 0 ? 0 : 2;
  }
  return code;
}

/** The commands a first word may mean: where it names some, the others need not be made. Help and slips want all. */
function meant([first]: readonly string[]): readonly CommandSpec[] {
  const named = COMMANDS.filter(({ name }) => name.split(' ')[0] === first);
  return named.length > 0 ? named : COMMANDS;
}

/** `rules show` is a command under `rules`. */
function commandFor(program: Command, spec: CommandSpec): Command {
  const words = spec.name.split(' ');
  let parent = program;
  for (const word of words.slice(0, -1)) {
    parent =
      parent.commands.find((command) => command.name() === word) ??
      parent
        .command(word)
        .description(`work with ${word}`)
        .helpOption('--help', 'show help')
        .helpCommand(false);
  }
  const command = parent
    .command(words.at(-1) ?? spec.name)
    .summary(spec.summary)
    .description(spec.summary);
  for (const { name, help } of spec.args) command.argument(name, help);
  for (const { flags, help, repeats } of spec.options) {
    if (repeats) command.option(flags, help, (value: string, before: string[] = []) => [...before, value]);
    else command.option(flags, help);
  }
  command.helpOption('--help', 'show help');
  if (spec.example !== undefined) command.addHelpText('after', `\nExample:\n  ${spec.example}`);
  return command;
}

/** Kept equal to package.json by a test. */
const VERSION = '0.1.0';

/** Every command, in the order --help lists them: the order of the work. */
export const COMMANDS: readonly CommandSpec[] = [
  startCommand,
  enquiryCommand,
  surveyCommand,
  treatedCommand,
  casesCommand,
  decideCommand,
  whatifCommand,
  sheetCommand,
  rulesShowCommand,
  ...RULES_ANALYSIS,
  ...RULES_REVISE,
  logCommand,
  followupCommand,
  learnedCommand,
  helpersCommand,
  regradeCommand,
  restoreCommand,
  doctorCommand,
  explainCommand,
];
