import { type CodeEntry, entry } from './entry.ts';

/** What can be wrong with a decision taken, recorded or made again. */
export const DECISION_CODES = {
  'stop-stands': entry(
    'A stop cannot be set aside',
    'What stops a quilt can harm people or other quilts, and no wish or experience changes that.',
    'Settle what stops it, survey it again, and decide anew.',
  ),
  'safety-unanswered': entry(
    'Questions on safety come before any choice',
    'Mould, damp, insects, rodent waste, sewage and poison harm people and other quilts. While nobody has asked about them, nothing can be agreed on.',
    'Ask the client, write the answers into the survey, and decide again.',
  ),
  'reason-wanted': entry(
    'A choice wants its reason',
    'A choice without its reason teaches nobody anything, and rules are revised by such reasons.',
    'Add --because "…" in a sentence.',
  ),
  'risk-note-wanted': entry(
    'A choice against what the cloth can bear wants a risk note',
    'The client has to know in writing what is risked, and the documents show it.',
    'Add --risk-note "…" with what may happen.',
  ),
  'nothing-recorded': entry(
    'No decision was recorded',
    'There is nothing to make again.',
    'Record one with "mendwise decide CASE --record".',
  ),
  'engine-disagrees': entry(
    'A rule was judged in two ways',
    'Every rule an answer cites is judged twice, by independent means. Where they differ, neither can be relied on.',
    'This is a fault of the program, not of your case: keep the case and the rules as they are, and report it.',
  ),
  'record-lost': entry(
    'What a recorded decision was made from is not there',
    'The rules or the case as they were then are missing or were altered, so it cannot be made again as it was.',
    'Restore the folder cases/.records from a backup.',
  ),
} as const satisfies Record<string, CodeEntry>;
