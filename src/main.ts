#!/usr/bin/env node
import { commandLine } from './cli/command-line.ts';
import { systemTerminal } from './store/terminal.ts';

/** One run of the command line. The only place that sets the exit code; where printing failed, that has set it already. */
export const run = (argv: readonly string[]): Promise<void> =>
  commandLine(argv, systemTerminal()).then((code) => {
    process.exitCode ??= code;
  });

void run(process.argv.slice(2));
