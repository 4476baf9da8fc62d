import type { CommandSpec } from '../command.ts';
import { casesCommand } from './cases.ts';
import { decideCommand } from './decide.ts';
import { enquiryCommand } from './enquiry.ts';
import { explainCommand } from './explain.ts';
import { helpersCommand } from './helpers.ts';
import { regradeCommand } from './regrade.ts';
import { rulesShowCommand } from './rules-show.ts';
import { sheetCommand } from './sheet.ts';
import { startCommand } from './start.ts';
import { surveyCommand } from './survey.ts';
import { whatifCommand } from './whatif.ts';

/** Every command, in the order --help lists them: the order of the work. */
export const COMMANDS: readonly CommandSpec[] = [
  startCommand,
  enquiryCommand,
  surveyCommand,
  casesCommand,
  decideCommand,
  whatifCommand,
  sheetCommand,
  rulesShowCommand,
  helpersCommand,
  regradeCommand,
  explainCommand,
];
