/** One slip put into the rules below, and the line on which it must be reported. */
export interface Mistake {
  readonly name: string;
  readonly from: string | RegExp;
  readonly to: string;
  readonly line: number;
}

/** Two sound rules, every part of the format at least once. Lines count from 1. */
export const RULES = `# Invented rules for a test.
- rule: much-loss
  title: Much is lost
  when:
    all:
      - finding: loss
        more than: 15 %
      - finding: intended_use
        one of: [display, guest_bed]
      - not:
          finding: hung
          is: yes
  then:
    stand: refer
    caution: Handle it on a board.
  because: Of the top, {loss} is lost.
  evidence: common practice
  source: common practice, no source
  since: 2026-11-25

- rule: wide-gap
  title: The gap is too wide
  when:
    any:
      - plan: gap_after
        more than: 4 1/2 in
      - planned: governing_fragility
        at least: weak
      - finding: made_about
        between: [1890, 1910]
  then:
    avoid: this plan
  because: It would leave {gap_after}.
  evidence: assumption
  source: invented
  since: 2026-11-25
  yields to: [much-loss]
`;

export const MISTAKES: readonly Mistake[] = [
  // names
  { name: 'a misspelt finding', from: 'finding: loss', to: 'finding: los', line: 6 },
  { name: 'a finding with a capital', from: 'finding: loss', to: 'finding: Loss', line: 6 },
  { name: 'a finding nobody has', from: 'finding: loss', to: 'finding: charm', line: 6 },
  { name: 'a finding left blank', from: 'finding: loss', to: 'finding:', line: 6 },
  { name: 'a misspelt choice', from: '[display, guest_bed]', to: '[display, gest_bed]', line: 9 },
  { name: 'a choice with a space', from: '[display, guest_bed]', to: '[display, guest bed]', line: 9 },
  { name: 'a misspelt grade', from: 'at least: weak', to: 'at least: waek', line: 28 },
  { name: 'a grade by number', from: 'at least: weak', to: 'at least: 3', line: 28 },
  { name: 'a plan attribute nobody has', from: 'plan: gap_after', to: 'plan: gap_before', line: 25 },
  {
    name: 'a finding that has no planned value',
    from: 'planned: governing_fragility',
    to: 'planned: hung',
    line: 27,
  },
  {
    name: 'a subject nobody has',
    from: 'planned: governing_fragility',
    to: 'planed: governing_fragility',
    line: 27,
  },
  { name: 'a unit in a stage', from: '- finding: loss', to: '- unit: state', line: 6 },
  { name: 'a fabric in a stage', from: '- finding: loss', to: '- family: fragility', line: 6 },
  { name: 'a misspelt rule to yield to', from: '[much-loss]', to: '[much-los]', line: 37 },
  { name: 'a rule that yields to itself', from: '[much-loss]', to: '[wide-gap]', line: 37 },
  { name: 'a placeholder nobody knows', from: '{loss}', to: '{lose}', line: 16 },
  { name: 'an empty placeholder', from: '{loss}', to: '{}', line: 16 },
  // comparisons
  { name: 'a misspelt comparison', from: 'more than: 15 %', to: 'more then: 15 %', line: 7 },
  { name: 'a comparison with an underline', from: 'more than: 15 %', to: 'more_than: 15 %', line: 7 },
  { name: 'a comparison by sign', from: 'more than: 15 %', to: '">": 15 %', line: 7 },
  { name: 'no comparison', from: '        more than: 15 %\n', to: '', line: 6 },
  { name: 'two comparisons', from: 'more than: 15 %', to: 'more than: 15 %\n        at most: 30 %', line: 6 },
  {
    name: 'an order among unordered choices',
    from: 'one of: [display, guest_bed]',
    to: 'at least: display',
    line: 9,
  },
  { name: 'a list where one value belongs', from: 'more than: 15 %', to: 'more than: [15 %]', line: 7 },
  { name: 'one value where a list belongs', from: '[display, guest_bed]', to: 'display', line: 9 },
  { name: 'an empty list', from: '[display, guest_bed]', to: '[]', line: 9 },
  { name: 'one end of a range', from: '[1890, 1910]', to: '[1890]', line: 30 },
  { name: 'a range the wrong way round', from: '[1890, 1910]', to: '[1910, 1890]', line: 30 },
  { name: 'a comparison left blank', from: 'more than: 15 %', to: 'more than:', line: 7 },
  { name: 'a value where none is taken', from: 'is: yes', to: 'is unknown: maybe', line: 12 },
  // values
  { name: 'a share over the whole', from: '15 %', to: '150 %', line: 7 },
  { name: 'a share below nothing', from: '15 %', to: '-15 %', line: 7 },
  { name: 'a share in words', from: '15 %', to: 'fifteen', line: 7 },
  { name: 'a bare number that could be a share or a slip', from: '15 %', to: '15', line: 7 },
  { name: 'a length without a unit', from: '4 1/2 in', to: '4.5', line: 26 },
  { name: 'a length in a foreign unit', from: '4 1/2 in', to: '4 ells', line: 26 },
  { name: 'a year out of range', from: '[1890, 1910]', to: '[189, 1910]', line: 30 },
  { name: 'a year in quotes', from: '[1890, 1910]', to: '["1890", 1910]', line: 30 },
  { name: 'yes and no mistaken for words', from: 'is: yes', to: 'is: perhaps', line: 12 },
  { name: 'yes and no as a number', from: 'is: yes', to: 'is: 1', line: 12 },
  {
    name: 'one choice that YAML takes for a number',
    from: '[display, guest_bed]',
    to: '[display, 1.10]',
    line: 9,
  },
  { name: 'one choice that is a date', from: '[display, guest_bed]', to: '[display, 2026-03-05]', line: 9 },
  { name: 'no as one choice', from: '[display, guest_bed]', to: '[display, no]', line: 9 },
  // groups
  { name: 'all and any side by side', from: '    all:\n', to: '    any: []\n    all:\n', line: 5 },
  { name: 'an empty group', from: /all:\n(.*\n){7}/, to: 'all: []\n', line: 5 },
  { name: 'a group that is no list', from: 'any:\n      - plan', to: 'any:\n        plan', line: 26 },
  { name: 'a test beside a group', from: '    all:\n', to: '    finding: hung\n    all:\n', line: 5 },
  { name: 'a misspelt group', from: '    any:\n', to: '    either:\n', line: 24 },
  { name: 'a condition that is a word', from: /when:\n {4}all:\n(.*\n){7}/, to: 'when: always\n', line: 4 },
  { name: 'a test that is a word', from: '- finding: loss\n        more than: 15 %', to: '- loss', line: 6 },
  // effects
  { name: 'a misspelt effect', from: 'avoid: this plan', to: 'aviod: this plan', line: 32 },
  { name: 'an effect with an underline', from: 'avoid: this plan', to: 'rule_out: this plan', line: 32 },
  { name: 'a misspelt standing', from: 'stand: refer', to: 'stand: reffer', line: 14 },
  { name: 'a standing with an underline', from: 'stand: refer', to: 'stand: not_yet', line: 14 },
  { name: 'a standing no rule sets', from: 'stand: refer', to: 'stand: go ahead', line: 14 },
  { name: 'an empty sentence', from: 'Handle it on a board.', to: '""', line: 15 },
  { name: 'a list for a sentence', from: 'Handle it on a board.', to: '[Handle it]', line: 15 },
  { name: 'an unknown use', from: 'stand: refer', to: 'refuse use: picnic', line: 14 },
  { name: 'a target that is no test', from: 'avoid: this plan', to: 'avoid: all plans', line: 32 },
  {
    name: 'a target on a finding',
    from: 'avoid: this plan',
    to: 'avoid: { finding: loss, more than: 5 % }',
    line: 32,
  },
  { name: 'a call for this plan', from: 'avoid: this plan', to: 'call for: this plan', line: 32 },
  { name: 'this plan where no plan is looked at', from: 'stand: refer', to: 'avoid: this plan', line: 13 },
  { name: 'a standing where plans are looked at', from: 'avoid: this plan', to: 'stand: decline', line: 31 },
  { name: 'an action in a stage', from: 'avoid: this plan', to: 'action: replace', line: 32 },
  { name: 'no effect', from: '    avoid: this plan\n', to: '', line: 31 },
  { name: 'an effect that is a word', from: 'then:\n    avoid: this plan', to: 'then: avoid', line: 31 },
  // the rule's own lines
  { name: 'a misspelt line', from: 'evidence: assumption', to: 'evidense: assumption', line: 34 },
  { name: 'a line nobody knows', from: 'source: invented', to: 'source: invented\n  priority: 5', line: 36 },
  { name: 'an unknown kind of evidence', from: 'evidence: assumption', to: 'evidence: guess', line: 34 },
  { name: 'no reason', from: '  because: It would leave {gap_after}.\n', to: '', line: 21 },
  { name: 'no condition', from: / {2}when:\n {4}all:\n(.*\n){7}/, to: '', line: 2 },
  { name: 'no title', from: '  title: Much is lost\n', to: '', line: 2 },
  { name: 'no source', from: '  source: invented\n', to: '', line: 21 },
  { name: 'no date', from: '  since: 2026-11-25\n\n', to: '\n', line: 2 },
  { name: 'a date the other way round', from: '2026-11-25\n\n', to: '25.11.2026\n\n', line: 19 },
  { name: 'a day that is none', from: '2026-11-25\n\n', to: '2026-02-30\n\n', line: 19 },
  { name: 'a name with spaces', from: 'rule: wide-gap', to: 'rule: wide gap', line: 21 },
  { name: 'a name that is a number', from: 'rule: wide-gap', to: 'rule: 12', line: 21 },
  { name: 'a name twice', from: 'rule: wide-gap', to: 'rule: much-loss', line: 21 },
  { name: 'a word for a list of rules', from: '[much-loss]', to: 'much-loss', line: 37 },
  { name: 'a title that is a list', from: 'title: Much is lost', to: 'title: [Much]', line: 3 },
  // YAML
  {
    name: 'the same line twice',
    from: 'evidence: assumption',
    to: 'evidence: assumption\n  evidence: published',
    line: 35,
  },
  {
    name: 'the same comparison twice',
    from: 'more than: 15 %',
    to: 'more than: 15 %\n        more than: 20 %',
    line: 8,
  },
  { name: 'a tab for indentation', from: '    stand: refer', to: '\tstand: refer', line: 14 },
  {
    name: 'a line indented too little',
    from: '        more than: 15 %',
    to: '     more than: 15 %',
    line: 7,
  },
  {
    name: 'a line indented too much',
    from: '        more than: 15 %',
    to: '          more than: 15 %',
    line: 7,
  },
  { name: 'no space after a colon', from: 'stand: refer', to: 'stand:refer', line: 14 },
  {
    name: 'two colons on a line',
    from: 'caution: Handle it on a board.',
    to: 'caution: Mind: handle it on a board.',
    line: 15,
  },
  { name: 'a bracket left open', from: '[display, guest_bed]', to: '[display, guest_bed', line: 10 },
  { name: 'a quote left open', from: 'title: Much is lost', to: 'title: "Much is lost', line: 3 },
  { name: 'an at sign first', from: 'source: invented', to: 'source: @invented', line: 35 },
  { name: 'an anchor', from: 'more than: 15 %', to: 'more than: &mark 15 %', line: 7 },
  { name: 'an alias', from: 'at least: weak', to: 'at least: *mark', line: 28 },
  { name: 'a merged group', from: 'stand: refer', to: '<<: { stand: refer }', line: 14 },
  { name: 'a second document', from: '\n- rule: wide-gap', to: '\n---\n- rule: wide-gap', line: 21 },
  { name: 'a tag', from: 'more than: 15 %', to: 'more than: !mark 15 %', line: 7 },
  { name: 'a prototype for a name', from: 'stand: refer', to: '__proto__: refer', line: 14 },
  { name: 'a constructor for an effect', from: 'stand: refer', to: 'constructor: refer', line: 14 },
  { name: 'a character no text holds', from: 'Much is lost', to: 'Much\u0000is lost', line: 3 },
  { name: 'a dash left out', from: '- rule: wide-gap', to: '  rule: wide-gap', line: 21 },
];
