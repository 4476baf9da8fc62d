import { type CodeEntry, entry } from './entry.ts';

/** What can be wrong with a rulebook, or is worth knowing about it. */
export const RULE_CODES = {
  'shipped-rules': entry(
    'The rules of the program itself',
    'They are what a new studio begins with, and what its own rules are compared with; an update would also undo any change to them.',
    'Make a studio with "mendwise start FOLDER", go into it, and change the rules there.',
  ),
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
} as const satisfies Record<string, CodeEntry>;
