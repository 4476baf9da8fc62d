import { commandLine } from './cli/command-line.ts';
import { systemTerminal } from './cli/terminal.ts';

// The only place that sets the exit code of a command; output still pending is written before the process ends.
void commandLine(process.argv.slice(2), systemTerminal()).then((code) => {
  // Where printing failed, the terminal has said so already.
  process.exitCode ??= code;
});
