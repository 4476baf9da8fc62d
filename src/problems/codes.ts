import { CASE_CODES, COMMAND_CODES, DECISION_CODES } from './codes/case-codes.ts';
import { RULE_CODES } from './codes/rule-codes.ts';
import { SHAPE_CODES, TEXT_CODES } from './codes/text-codes.ts';

/** Every code there is, room by room. A test walks this list; `explain` prints it. */
export const CODES = {
  ...TEXT_CODES,
  ...SHAPE_CODES,
  ...CASE_CODES,
  ...RULE_CODES,
  ...DECISION_CODES,
  ...COMMAND_CODES,
};

export type ProblemCode = keyof typeof CODES;
