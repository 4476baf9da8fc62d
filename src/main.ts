#!/usr/bin/env node
import { commandLine } from './cli/command-line.ts';
import { systemTerminal } from './cli/terminal.ts';

// The only place that sets the exit code of a command; where printing failed, that has set it already.
void commandLine(process.argv.slice(2), systemTerminal()).then((code) => {
  process.exitCode ??= code;
});
