import type { RuleSlip } from './sound-rules.ts';

const when = (text: string): readonly (readonly [string, string])[] => [
  [
    `    all:
      - finding: loss
        at least: 5 %
      - not:
          finding: hung
          is: yes
`,
    text,
  ],
];

/** Slips in what a rule asks: groups and tests. */
export const CONDITION_SLIPS: readonly RuleSlip[] = [
  // Groups
  {
    name: 'all and any side by side',
    change: [['      - not:\n', '    any:\n      - not:\n']],
    said: ['7:5 [mixed-group] "all" and "any" stand side by side'],
  },
  {
    name: 'a test beside a group',
    change: when('    all:\n      - finding: loss\n        at least: 5 %\n    finding: hung\n    is: yes\n'),
    said: [
      '7:5 [mixed-group] "finding" stands beside "all" in one condition',
      '8:5 [mixed-group] "is" stands beside "all" in one condition',
    ],
  },
  {
    name: 'an empty group',
    change: when('    all: []\n'),
    said: ['4:5 [empty-group] "all" holds no condition'],
  },
  {
    name: 'an empty group inside another',
    change: when('    all:\n      - finding: hung\n        is: yes\n      - any: []\n'),
    said: ['7:9 [empty-group] "any" holds no condition'],
  },
  {
    name: 'a group that is no list',
    change: when('    all:\n      finding: loss\n      at least: 5 %\n'),
    said: ['5:7 [wrong-kind] "all" holds a list of conditions, each on a line starting with a dash'],
  },
  {
    name: 'a condition that is a word',
    change: when('    all: [loss]\n'),
    said: ['4:11 [wrong-kind] A condition is a group (all, any, not) or a test such as "finding: … is: …"'],
  },
  {
    name: 'not holding a list',
    change: when('    not: [{ finding: hung, is: yes }]\n'),
    said: ['4:10 [wrong-kind] A condition is a group (all, any, not) or a test such as "finding: … is: …"'],
  },
  // Tests
  {
    name: 'a misspelt comparison',
    change: [['at least: 5 %', 'at lest: 5 %']],
    said: ['6:9 [unknown-key] "at lest" means nothing in a condition «at least»'],
  },
  {
    name: 'a misspelt subject',
    change: [['finding: loss', 'findng: loss']],
    said: ['5:9 [unknown-key] "findng" means nothing in a condition «finding»'],
  },
  {
    name: 'two subjects in one test',
    change: [['- finding: loss', '- planned: loss\n        finding: loss']],
    said: ['5:9 [bad-comparison] The condition looks at two things at once'],
  },
  {
    name: 'two comparisons in one test',
    change: [['at least: 5 %', 'at least: 5 %\n        at most: 9 %']],
    said: ['5:9 [bad-comparison] "at least" and "at most" stand in one condition'],
  },
  {
    name: 'no comparison',
    change: [['\n        at least: 5 %', '']],
    said: ['5:9 [bad-comparison] The condition compares with nothing'],
  },
  {
    name: 'a misspelt finding',
    change: [['finding: loss', 'finding: los']],
    said: ['5:18 [unknown-finding] There is no finding called "los" «loss»'],
  },
  {
    name: 'a finding like no other',
    change: [['finding: loss', 'finding: moon_phase']],
    said: ['5:18 [unknown-finding] There is no finding called "moon_phase"'],
  },
  {
    name: 'a finding that does not exist as planned',
    change: [['finding: loss', 'planned: join_failure']],
    said: ['5:18 [unknown-finding] There is no finding as planned called "join_failure"'],
  },
  {
    name: 'a misspelt plan attribute',
    change: [['plan: treatment', 'plan: treatmnt']],
    said: ['23:15 [unknown-finding] There is no attribute of a plan called "treatmnt" «treatment»'],
  },
  {
    name: 'a unit in a rule of a stage',
    change: [['finding: loss\n        at least: 5 %', 'unit: state\n        is: lost']],
    said: ['5:9 [bad-comparison] "unit" cannot be asked about here'],
  },
  {
    name: 'a share without a sign',
    change: [['at least: 5 %', 'at least: five']],
    said: ['6:19 [wrong-kind] "loss" is compared with a fraction, not with "five"'],
  },
  {
    name: 'a share above one',
    change: [['at least: 5 %', 'at least: 140 %']],
    said: ['6:19 [out-of-range] 140 % is outside what "loss" can be'],
  },
  {
    name: 'yes or no compared with a number',
    change: [['is: yes', 'is: 3']],
    said: ['9:15 [wrong-kind] "hung" is compared with yes or no, not with 3'],
  },
  {
    name: 'a misspelt grade',
    change: [['at least: weak', 'at least: waek']],
    said: ['22:19 [not-an-option] "waek" is not one of the choices for governing_fragility «weak»'],
  },
  {
    name: 'a choice that is not offered',
    change: [['is: tie', 'is: glue']],
    said: ['24:13 [not-an-option] "glue" is not one of the choices for treatment'],
  },
  {
    name: 'an order asked of choices without one',
    change: [['is: tie', 'at least: tie']],
    said: [
      '24:9 [bad-comparison] "at least" needs values that stand in an order, and those of "treatment" do not',
    ],
  },
  {
    name: 'an order asked of yes and no',
    change: [['is: yes', 'at least: yes']],
    said: [
      '9:11 [bad-comparison] "at least" needs values that stand in an order, and those of "hung" do not',
    ],
  },
  {
    name: 'between with one value',
    change: [['at least: 5 %', 'between: [5 %]']],
    said: ['6:18 [bad-comparison] "between" takes two values'],
  },
  {
    name: 'between the wrong way round',
    change: [['at least: 5 %', 'between: [20 %, 5 %]']],
    said: ['6:18 [bad-comparison] The two values of "between" stand the wrong way round'],
  },
  {
    name: 'one of without a list',
    change: [['is: tie', 'one of: tie']],
    said: ['24:17 [bad-comparison] "one of" takes a list of values'],
  },
  {
    name: 'one of with a stranger in the list',
    change: [['is: tie', 'one of: [tie, lins]']],
    said: ['24:23 [not-an-option] "lins" is not one of the choices for treatment «lines»'],
  },
  {
    name: 'is known with a value',
    change: [['at least: 5 %', 'is known: 5 %']],
    said: ['6:19 [bad-comparison] "is known" takes no value'],
  },
];
