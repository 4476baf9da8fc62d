import { unreadableCases } from './cases.ts';
import { drafts } from './drafts.ts';
import { expectations } from './expectations.ts';
import type { Examination } from './fault.ts';
import { history } from './history.ts';
import { leftBehind } from './left-behind.ts';
import { records } from './records.ts';
import { rules } from './rules.ts';
import { settings } from './settings.ts';

/** Everything that is looked at, in the order it is told. */
export const EXAMINATIONS: readonly Examination[] = [
  leftBehind,
  settings,
  rules,
  unreadableCases,
  history,
  records,
  drafts,
  expectations,
];
