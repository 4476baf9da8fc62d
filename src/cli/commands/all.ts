import type { CommandSpec } from '../command.ts';
import { casesCommand } from './cases.ts';
import { decideCommand } from './decide.ts';
import { explainCommand } from './explain.ts';
import { rulesShowCommand } from './rules-show.ts';
import { startCommand } from './start.ts';

/** Every command, in the order --help lists them: the order of the work. */
export const COMMANDS: readonly CommandSpec[] = [
  startCommand,
  casesCommand,
  decideCommand,
  rulesShowCommand,
  explainCommand,
];
