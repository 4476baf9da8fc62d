import { type CodeEntry, entry } from './entry.ts';

/** What can be wrong with a case, or with reading and writing its file. */
export const CASE_CODES = {
  'newer-format': entry(
    'The file was written by a newer version',
    'It may hold things this version does not know and would lose.',
    'Update mendwise, then open the case again.',
  ),
  'case-name': entry(
    'The case and its file have different names',
    'Lists, links and follow-ups find a case by its name.',
    'Rename the file or change the line "case:".',
  ),
  'map-shape': entry(
    'The map does not fit the layout',
    'Each row of the map must have as many marks as the quilt has units in that row, or every later unit is misplaced.',
    'Count the row on the quilt again and correct the line.',
  ),
  'map-letter': entry(
    'A mark that the map does not use',
    'Each mark stands for one state or one fabric family.',
    'Use the marks listed in the message.',
  ),
  'sum-mismatch': entry(
    'Figures that do not add up',
    'Two counts of the same thing disagree, so one of them is wrong.',
    'Count again and correct one of them.',
  ),
  'dates-disagree': entry(
    'Dates that cannot both be right',
    'Follow-ups and the light and wear of past years are reckoned from these dates.',
    'Check both and correct the wrong one.',
  ),
  'no-such-position': entry(
    'A position that is not on this quilt',
    'Positions are a row letter and a column number from the top left as you look at the quilt.',
    'Check the row letter and the column number.',
  ),
  'hazard-not-noted': entry(
    'A treatment for a hazard that was never noted',
    'What was done about a hazard lifts the stop it answers, so each has to stand beside the look that found it.',
    'Note the hazard in the survey or in the later look that found it, or correct the name of the hazard.',
  ),
  'hazard-stands': entry(
    'A hazard that was noted, and an answer that takes it back',
    'What was seen or told stays a hazard until somebody deals with it. Another answer makes no quilt safe.',
    'Write down what was done about it, or that it was noted by mistake: "mendwise treated".',
  ),
  'not-confirmed': entry(
    'Something done that nobody did, or that nobody else confirms',
    'A stop keeps people from harm. Only what somebody did, and what somebody else confirms, lifts it.',
    'Say what was done, who did it, and who else confirms it.',
  ),
  suspicious: entry(
    'Possible, but unusual',
    'The value is possible but so unusual that it is worth a second look.',
    'Leave it if it is right.',
  ),
  'no-such-file': entry(
    'No such file',
    'Nothing of that name is there.',
    'Check the name; "mendwise cases" lists what there is.',
  ),
  'cannot-read': entry(
    'The file cannot be read',
    'The disk or its permissions refused.',
    'Check that the file is yours to read.',
  ),
  'cannot-write': entry(
    'The file cannot be written',
    'The disk is full or its permissions refused; the old file is untouched.',
    'Free some space or choose another folder, then try again.',
  ),
  'changed-underneath': entry(
    'The file changed while it was open here',
    'Someone else wrote it in the meantime; writing now would lose their work, so nothing was written.',
    'Run the command again: it starts from what is there now.',
  ),
  'already-there': entry(
    'Something is already there',
    'Overwriting it would lose it.',
    'Choose another name.',
  ),
  'bad-name': entry(
    'A name that cannot be a case name',
    'Names become file names, so they keep to letters, digits and dashes.',
    'Use a short name such as lantern-ninepatch.',
  ),
} as const satisfies Record<string, CodeEntry>;

/** What can be wrong with a decision taken, recorded or made again. */
export const DECISION_CODES = {
  'stop-stands': entry(
    'A stop cannot be set aside',
    'What stops a quilt can harm people or other quilts, and no wish or experience changes that.',
    'Read what to do now, and who settles it, with "mendwise decide". A hazard that was dealt with is written down with "mendwise treated"; looking again does not lift it.',
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
  'paper-contradicts-itself': entry(
    'A paper would contradict itself',
    'Drawings, lists and counts of one paper come from one survey. Where they differ, nobody can work by it.',
    'This is a fault of the program, not of your case: keep the case as it is, and report it.',
  ),
  'record-lost': entry(
    'What a recorded decision was made from is not there',
    'The rules or the case as they were then are missing or were altered, so it cannot be made again as it was.',
    'Restore the folder cases/.records from a backup.',
  ),
} as const satisfies Record<string, CodeEntry>;

/** What can be wrong with how a command was called. */
export const COMMAND_CODES = {
  usage: entry(
    'The command was not understood',
    'A word or option is not known here.',
    'See mendwise --help.',
  ),
  'needs-terminal': entry(
    'An interview needs a terminal',
    'Questions cannot be asked where nobody can answer, such as in a script or a pipe.',
    'Give the answers as options or in the file; the message names what is missing.',
  ),
  interrupted: entry(
    'Interrupted',
    'Ctrl-C was pressed.',
    'What was answered so far is kept; run the command again to go on.',
  ),
  internal: entry(
    'A fault in mendwise itself',
    'Something happened that the program did not expect. Nothing was written.',
    'Keep the file that caused it and report the message.',
  ),
} as const satisfies Record<string, CodeEntry>;
