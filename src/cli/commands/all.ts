import type { CommandSpec } from '../command.ts';
import { decideCommand } from './decide.ts';

/** Every command, in the order --help lists them: the order of the work. */
export const COMMANDS: readonly CommandSpec[] = [decideCommand];
