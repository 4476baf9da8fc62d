import { commandLine } from './cli/command-line.ts';
import { systemTerminal } from './cli/terminal.ts';

const terminal = systemTerminal();

// The only place that sets the exit code of a command. Node left to itself goes on compiling and tidying up for another
// 20 to 30 ms, so the process is ended once everything is written.
void commandLine(process.argv.slice(2), terminal).then(async (code) => {
  await terminal.written();
  // Where printing failed, the terminal has said so already.
  process.exit(process.exitCode ?? code);
});
