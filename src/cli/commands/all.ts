import type { CommandSpec } from '../command.ts';
import { casesCommand } from './cases.ts';
import { decideCommand } from './decide.ts';
import { doctorCommand } from './doctor.ts';
import { enquiryCommand } from './enquiry.ts';
import { explainCommand } from './explain.ts';
import { followupCommand } from './followup.ts';
import { helpersCommand } from './helpers.ts';
import { learnedCommand } from './learned.ts';
import { logCommand } from './log.ts';
import { regradeCommand } from './regrade.ts';
import { restoreCommand } from './restore.ts';
import { RULES_ANALYSIS } from './rules-analysis.ts';
import { RULES_REVISE } from './rules-revise.ts';
import { rulesShowCommand } from './rules-show.ts';
import { sheetCommand } from './sheet.ts';
import { startCommand } from './start.ts';
import { surveyCommand } from './survey.ts';
import { treatedCommand } from './treated.ts';
import { whatifCommand } from './whatif.ts';

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
