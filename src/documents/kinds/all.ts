import type { Standing } from '../../rulebook/model.ts';
import { careSheet } from './care.ts';
import { changeOrder } from './change.ts';
import { decisionSheet } from './decision.ts';
import { estimate } from './estimate.ts';
import type { Kind } from './frame.ts';
import { declineLetter, notYetLetter, referLetter } from './letters.ts';
import { completionReport } from './report.ts';
import { surveyReport } from './survey.ts';
import { workOrder } from './work.ts';

/** Every kind of document, in the order they are met. */
export const KINDS: readonly Kind[] = [
  decisionSheet,
  declineLetter,
  referLetter,
  notYetLetter,
  estimate,
  changeOrder,
  workOrder,
  completionReport,
  careSheet,
  surveyReport,
];

/** What a client is given when nobody says otherwise. */
export const KIND_FOR: Readonly<Record<Standing, string>> = {
  go_ahead: 'decision',
  not_yet: 'not-yet',
  refer: 'refer',
  decline: 'decline',
};
