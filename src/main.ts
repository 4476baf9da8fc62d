#!/usr/bin/env node
import { commandLine } from './cli/command-line.ts';
import { systemTerminal } from './cli/terminal.ts';

// The only place that sets the exit code; output still pending is written before the process ends.
process.exitCode = await commandLine(process.argv.slice(2), systemTerminal());
