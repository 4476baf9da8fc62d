import { type RuleSlip, SOUND } from './sound-rules.ts';

/** Slips in what a rule does, in its other lines, and between rules. */
export const RULE_SLIPS: readonly RuleSlip[] = [
  // Effects
  {
    name: 'an effect that does not exist',
    change: [['condition: Rows', 'conditon: Rows']],
    said: ['11:5 [bad-effect] "conditon" is not something a rule can do here «condition»'],
  },
  {
    name: 'nothing done',
    change: [['    condition: Rows are opened one at a time.\n', '    {}\n']],
    said: ['11:5 [bad-effect] "then" says nothing that the rule does'],
  },
  {
    name: 'an unknown standing',
    change: [['condition: Rows are opened one at a time.', 'stand: refuse']],
    said: ['11:12 [not-an-option] "refuse" is not one of the choices here'],
  },
  {
    name: 'a use that does not exist',
    change: [['condition: Rows are opened one at a time.', 'refuse use: infant_slep']],
    said: ['11:17 [not-an-option] "infant_slep" is not one of the choices here «infant_sleep»'],
  },
  {
    name: 'an empty sentence',
    change: [['condition: Rows are opened one at a time.', 'condition: ""']],
    said: ['11:16 [wrong-kind] A sentence is wanted here'],
  },
  {
    name: 'this plan where no plan is looked at',
    change: [['condition: Rows are opened one at a time.', 'rule out: this plan']],
    said: ['10:3 [bad-effect] The rule speaks of "this plan" but looks at no plan'],
  },
  {
    name: 'a standing set by a rule about plans',
    change: [['rule out: this plan', 'stand: decline']],
    said: ['25:3 [bad-effect] A rule that looks at a plan cannot set the standing of the whole quilt'],
  },
  {
    name: 'a use refused by a rule about plans',
    change: [['rule out: this plan', 'refuse use: child_bed']],
    said: ['25:3 [bad-effect] A rule that looks at a plan cannot set the standing of the whole quilt'],
  },
  {
    name: 'plans named by a word',
    change: [['rule out: this plan', 'rule out: ties']],
    said: ['26:15 [bad-effect] "ties" does not say which plans are meant'],
  },
  {
    name: 'plans named by a finding',
    change: [['rule out: this plan', 'prefer: { finding: hung, is: yes }']],
    said: ['26:15 [bad-comparison] "finding" cannot be asked about here'],
  },
  {
    name: 'an action in a rule of a stage',
    change: [['condition: Rows are opened one at a time.', 'action: replace']],
    said: ['11:5 [bad-effect] "action" is not something a rule can do here «caution»'],
  },
  // The envelope
  {
    name: 'no because',
    change: [['  because: Lost cloth makes up {finding.loss} of the top.\n', '']],
    said: ['1:3 [missing-key] because is missing'],
  },
  {
    name: 'no then',
    change: [['  then:\n    condition: Rows are opened one at a time.\n', '']],
    said: ['1:3 [missing-key] The rule has no "then"'],
  },
  {
    name: 'no when',
    change: [
      [
        `  when:
    all:
      - finding: loss
        at least: 5 %
      - not:
          finding: hung
          is: yes
`,
        '',
      ],
    ],
    said: ['1:3 [missing-key] The rule has no "when"'],
  },
  {
    name: 'a misspelt key of a rule',
    change: [['  evidence: common practice', '  evidense: common practice']],
    said: [
      '1:3 [missing-key] evidence is missing',
      '13:3 [unknown-key] "evidense" is not known here «evidence»',
    ],
  },
  {
    name: 'evidence of a kind there is not',
    change: [['evidence: assumption', 'evidence: hearsay']],
    said: ['28:13 [not-an-option] "hearsay" is not one of the choices for evidence'],
  },
  {
    name: 'a date that is no day',
    change: [['since: 2026-01-05\n\n', 'since: 2026-02-30\n\n']],
    said: ['15:10 [bad-date] since: "2026-02-30" is not a day of the calendar'],
  },
  {
    name: 'a name with a blank',
    change: [['rule: some-loss', 'rule: some loss']],
    said: [
      '1:9 [bad-name] "some loss" cannot be the name of a rule: small letters and digits, words joined by dashes',
      '31:15 [unknown-rule] "no-ties-in-weak-cloth" yields to "some-loss", which does not exist «some loss»',
    ],
  },
  {
    name: 'a placeholder that names nothing',
    change: [['{finding.loss}', '{los}']],
    said: ['12:12 [bad-placeholder] "{los}" names nothing that is known'],
  },
  {
    name: 'a placeholder in advice that names nothing',
    change: [['Rows are opened', 'The {rows} are opened']],
    said: ['11:16 [bad-placeholder] "{rows}" names nothing that is known'],
  },
  {
    name: 'a placeholder of a plan that does not exist',
    change: [['{planned.governing_fragility}', '{plan.moon_phase}']],
    said: ['27:12 [bad-placeholder] "{plan.moon_phase}" names nothing that is known'],
  },
  {
    name: 'a file that is no list',
    change: [[SOUND, 'some-loss: { title: Some loss }\n']],
    said: ['1:1 [wrong-kind] A file of rules is a list, each rule starting with "- rule: its-name"'],
  },
  {
    name: 'a rule that is a word',
    change: [[SOUND, '- some-loss\n']],
    said: ['1:3 [wrong-kind] this file wants a group of lines, not "some-loss"'],
  },
  // The whole book
  {
    name: 'the same name twice',
    change: [
      ['rule: no-ties-in-weak-cloth', 'rule: some-loss'],
      ['  yields to: [some-loss]\n', ''],
    ],
    said: ['17:9 [duplicate-rule] A rule called "some-loss" stands already at rules/stages/some.yaml:1'],
  },
  {
    name: 'yielding to nothing',
    change: [['yields to: [some-loss]', 'yields to: [som-loss]']],
    said: [
      '31:15 [unknown-rule] "no-ties-in-weak-cloth" yields to "som-loss", which does not exist «some-loss»',
    ],
  },
  {
    name: 'yielding to itself',
    change: [['yields to: [some-loss]', 'yields to: [no-ties-in-weak-cloth]']],
    said: ['31:15 [yields-in-a-circle] "no-ties-in-weak-cloth" gives way, by way of others, to itself'],
  },
  {
    name: 'yielding in a circle',
    change: [['  since: 2026-01-05\n\n', '  since: 2026-01-05\n  yields to: [no-ties-in-weak-cloth]\n\n']],
    said: [
      '16:15 [yields-in-a-circle] "some-loss" gives way, by way of others, to itself',
      '32:15 [yields-in-a-circle] "no-ties-in-weak-cloth" gives way, by way of others, to itself',
    ],
  },
  // Rules about units
  {
    name: 'a plan in a rule about units',
    units: true,
    change: [['finding: loss\n        at least: 5 %', 'plan: treatment\n        is: tie']],
    said: [
      '5:9 [bad-comparison] "plan" cannot be asked about here',
      '11:5 [bad-effect] "condition" is not something a rule can do here',
    ],
  },
  {
    name: 'a standing set by a rule about units',
    units: true,
    change: [['condition: Rows are opened one at a time.', 'stand: decline']],
    said: ['11:5 [bad-effect] "stand" is not something a rule can do here'],
  },
  {
    name: 'an action that does not exist',
    units: true,
    change: [['condition: Rows are opened one at a time.', 'action: patch']],
    said: ['11:13 [not-an-option] "patch" is not one of the choices here «patch_over»'],
  },
];
