/** What a code means whatever file it turns up in: printed by `mendwise explain CODE`. */
export interface CodeEntry {
  readonly title: string;
  readonly cause: string;
  readonly cure: string;
}

const entry = (title: string, cause: string, cure: string): CodeEntry => ({ title, cause, cure });

/** Every code there is. A test walks this list; `explain` prints it. Keep it sorted by room, then by name. */
export const CODES = {
  // text and YAML
  'not-text': entry(
    'The file is not readable text',
    'The file holds bytes that are not UTF-8 text, such as a picture, a word-processor file or UTF-16.',
    'Save it as plain text, encoding UTF-8, and try again.',
  ),
  'too-large': entry(
    'The file is too large',
    'Case and rule files are a few pages long; this one is far beyond that, so it is probably not what it seems.',
    'Check that the right file was named.',
  ),
  'yaml-syntax': entry(
    'The file cannot be read as YAML',
    'YAML shows structure by indentation, colons and dashes; one of them is out of place here.',
    'Compare the lines around the mark with a shipped example: same indentation with spaces, a space after each colon.',
  ),
  'yaml-duplicate-key': entry(
    'The same key stands twice',
    'One of the two would silently win, and nobody could say which was meant.',
    'Keep one of them.',
  ),
  'yaml-alias': entry(
    'Anchors and aliases are not used here',
    'A value borrowed from elsewhere in the file (&, *, <<) hides what a reader needs to see in place.',
    'Write the value out.',
  ),
  'yaml-many-documents': entry(
    'The file holds more than one document',
    'A line of three dashes starts a second document, and only one case or rulebook part belongs in a file.',
    'Put each into a file of its own.',
  ),
  'yaml-tab': entry(
    'A tab stands where spaces belong',
    'Tabs are as wide as each editor likes, so nobody can tell which lines belong together.',
    'Replace the tab with spaces; most editors can do that for the whole file.',
  ),
  'yaml-tag': entry(
    'Marks beginning with an exclamation mark are not used here',
    'Such a mark changes how a value is read in a way the reader of the file cannot see.',
    'Remove the mark, or put the value in quotes if the exclamation mark belongs to it.',
  ),
  'too-deep': entry(
    'The lines are nested too deeply',
    'No case or rule needs so many levels, so something was pasted or indented by mistake.',
    'Check brackets and indentation around the mark.',
  ),
  'empty-file': entry(
    'The file is empty',
    'There is nothing to read in it.',
    'Restore it, or start from a sample.',
  ),
  // shape
  'unknown-key': entry(
    'A name that is not known here',
    'A misspelt name would be passed over in silence, and what was meant would count as unknown.',
    'Correct the spelling, or remove the line.',
  ),
  'missing-key': entry(
    'Something required is missing',
    'Without it the rest of the file cannot be understood.',
    'Add the line named in the message.',
  ),
  'wrong-kind': entry(
    'A value of the wrong kind',
    'The place wants another kind of value: a word, a number, a list or a group of lines.',
    'Write the value as the message shows.',
  ),
  'not-an-option': entry(
    'A value that is not one of the choices',
    'Rules compare against the listed choices only, so any other word could never match.',
    'Use one of the listed choices, or "unknown".',
  ),
  'out-of-range': entry(
    'A value outside what is possible',
    'A figure beyond the possible range is nearly always a slip of the pen or a wrong unit.',
    'Correct the figure or its unit.',
  ),
  'bad-quantity': entry(
    'A measure that cannot be read',
    'Lengths, areas, weights and shares need a number and a unit, such as 4 1/2 in, 12 cm, 60 in2, 3.2 lb or 5 %.',
    'Write number, space, unit.',
  ),
  'bad-date': entry(
    'A date that cannot be read',
    'Dates are written year-month-day so that nobody mixes up day and month.',
    'Write it like 2026-03-05.',
  ),
  // cases
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
  // rules
  'duplicate-rule': entry(
    'Two rules with one name',
    'Reasons are cited by rule name, so a name must mean one rule.',
    'Rename one of them.',
  ),
  'unknown-finding': entry(
    'A finding that the vocabulary does not have',
    'The rule could never become true.',
    'Correct the name, or add the finding to findings.yaml.',
  ),
  'unknown-rule': entry(
    'A rule that does not exist',
    'It refers to a rule nobody wrote.',
    'Correct the name.',
  ),
  'empty-group': entry(
    'A group with nothing in it',
    'An empty "all" is always true and an empty "any" never is; neither is likely to be meant.',
    'Add at least one condition, or remove the group.',
  ),
  'mixed-group': entry(
    'A group with more than one of all, any and not',
    'It cannot be told which of them binds first.',
    'Nest one inside the other.',
  ),
  'bad-comparison': entry(
    'A comparison that does not fit the finding',
    'Each condition names one subject and one comparison, and the comparison must suit the kind of finding.',
    'Use one of the comparisons listed in the message.',
  ),
  'bad-effect': entry(
    'An effect that is not known',
    'A rule whose effect is misspelt would do nothing.',
    'Use one of the effects listed in the message.',
  ),
  'yields-in-a-circle': entry(
    'Rules that give way to each other in a circle',
    'None of them could ever hold.',
    'Remove one of the "yields to" lines.',
  ),
  'bad-placeholder': entry(
    'A placeholder that cannot be filled',
    'The sentence would be printed with a hole in it.',
    'Use a name from the list in the message.',
  ),
  'missing-figure': entry(
    'A figure the estimates need is missing',
    'Without it hours, holes, life or price cannot be worked out.',
    'Add it to figures.yaml; the shipped file shows how.',
  ),
  'never-true': entry(
    'A rule that can never be true',
    'Its conditions exclude each other, so whatever it was written for passes it by.',
    'Look at the tests that read the same finding, and at groups that should be "any" where they are "all".',
  ),
  'always-true': entry(
    'A rule that is true of every quilt',
    'It tells no quilt from another, so its condition says less than was meant.',
    'Narrow the condition, or put what it says where it holds for all quilts.',
  ),
  'subsumed-rule': entry(
    'A rule that adds nothing',
    'Another rule does the same whenever this one is true; two wordings of one rule drift apart over the years.',
    'Retire one of them, or change the condition of one so that they differ.',
  ),
  contradiction: entry(
    'Two rules that leave no plan between them',
    'Both can be true of one quilt, and then one takes away what the other calls for, and the answer would be to decline.',
    'Let one give way with "yields to", or narrow one of the conditions.',
  ),
  'no-plan-left': entry(
    'Findings for which no plan is left',
    'The answer is then to decline, and only the rules that removed the last plans say why.',
    'If that is meant, add a rule that declines or refers and says so; otherwise narrow one of the rules named.',
  ),
  'ranking-alone': entry(
    'Findings on which only the ranking decides',
    'No rule prefers one of the treatments left, so the years wanted, the holes and the price decide between them.',
    'Leave it if that is meant, or write a preference.',
  ),
  'threshold-hole': entry(
    'Values between two grades that no rule speaks of',
    'A quilt with such a value falls between two rules.',
    'Let one grade end where the next begins: "at most" here and "more than" there.',
  ),
  'threshold-overlap': entry(
    'Values at which two neighbouring grades both hold',
    'A quilt exactly at the mark is told two things.',
    'Let one grade end where the next begins: "at most" here and "more than" there.',
  ),
  'unknowable-finding': entry(
    'A finding nobody can know where the rule applies',
    'The rule would stay undecided for ever on the quilts it speaks of.',
    'Take that test out, or let the rule speak of other quilts.',
  ),
  'not-in-force': entry(
    'A rule that is not in force on this day',
    'Rules hold from the day in "since" until the day in "until"; others are kept so that old decisions can be understood.',
    'Nothing to do, unless the date is wrong.',
  ),
  // decisions
  'stop-stands': entry(
    'A stop cannot be set aside',
    'What stops a quilt can harm people or other quilts, and no wish or experience changes that.',
    'Settle what stops it, survey it again, and decide anew.',
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
  'record-lost': entry(
    'What a recorded decision was made from is not there',
    'The rules or the case as they were then are missing or were altered, so it cannot be made again as it was.',
    'Restore the folder cases/.records from a backup.',
  ),
  // command line
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

export type ProblemCode = keyof typeof CODES;
