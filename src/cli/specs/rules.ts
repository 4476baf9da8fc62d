import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

const BECAUSE = {
  flags: '--because <reason>',
  help: 'why, in a sentence; asked for where it is left out',
} as const;
const ON = { flags: '--on <date>', help: 'the day from which it holds (default: today)' } as const;

/** Commands that change a rule file. */
export const RULES_REVISE: readonly CommandSpec[] = [
  {
    name: 'rules new',
    summary: 'add a rule to a stage',
    args: [{ name: '<rule>', help: 'its name: lower-case words joined by dashes' }],
    options: [
      {
        flags: '--stage <stage>',
        help: 'stop, refer, capability, extent, structure, joining, means or units',
      },
      { flags: '--title <title>', help: 'what it says, in a few words' },
      {
        flags: '--when <condition>',
        help: 'its condition as YAML, such as "{ all: [{ finding: loss, more than: 20 % }] }"',
      },
      {
        flags: '--then <effects>',
        help: 'what it does as YAML, such as "{ ask: Which pieces matter most? }"',
      },
      { flags: '--because <reason>', help: 'its reason, as the client should read it' },
      {
        flags: '--evidence <kind>',
        help: 'published, common practice, studio experience or assumption (default: studio experience)',
      },
      { flags: '--source <source>', help: 'what it rests on (default: studio experience, no source)' },
      ON,
      ...STUDIO_OPTIONS,
    ],
    example:
      'mendwise rules new ask-about-pets --stage stop --title "Ask about pets" --when "{ all: [{ finding: intended_use, is: child_bed }] }" --then "{ ask: Does a pet sleep on it? }" --because "Claws pull ties."',
    load: () => import('../commands/rules/new.ts'),
  },
  {
    name: 'rules amend',
    summary: 'change a rule from a day on, keeping the old wording in its history',
    args: [{ name: '<rule>', help: 'the name of the rule' }],
    options: [
      {
        flags: '--set <path=value...>',
        help: 'what should be otherwise, such as "when.all.0.at most=20 %" or "title=…"',
      },
      BECAUSE,
      ON,
      ...STUDIO_OPTIONS,
    ],
    example:
      'mendwise rules amend light-loss-stays-closed --set "when.all.0.at most=6 %" --because "Six quilts held."',
    load: () => import('../commands/rules/amend.ts'),
  },
  {
    name: 'rules retire',
    summary: 'end a rule on a day; it is kept so that old decisions can be understood',
    args: [{ name: '<rule>', help: 'the name of the rule' }],
    options: [BECAUSE, ON, ...STUDIO_OPTIONS],
    example: 'mendwise rules retire sell-it-as-it-is --because "Buyers of ours want them mended."',
    load: () => import('../commands/rules/retire.ts'),
  },
  {
    name: 'rules schema',
    summary: 'write the schemas by which editors complete and underline rule and case files',
    args: [],
    options: [...STUDIO_OPTIONS],
    example: 'mendwise rules schema',
    load: () => import('../commands/rules/schema.ts'),
  },
  {
    name: 'rules book',
    summary: 'print the whole rulebook as one page for a practitioner or a peer to review',
    args: [],
    options: [
      { flags: '--output <file>', help: 'write it to this new HTML file (default: rulebook.html)' },
      { flags: '--replace', help: 'write over a file that is there' },
      AS_OF,
      ...STUDIO_OPTIONS,
    ],
    example: 'mendwise rules book --output rulebook.html',
    load: () => import('../commands/rules/book.ts'),
  },
];

const COMMON = [...STUDIO_OPTIONS, AS_OF, JSON_OPTION] as const;

/** Commands that read the rulebook and say something about it. */
export const RULES_ANALYSIS: readonly CommandSpec[] = [
  {
    name: 'rules check',
    summary: 'check the rules: faults of writing, contradictions, gaps, thresholds',
    args: [],
    options: [{ flags: '--notes', help: 'show notes in full as well as errors and warnings' }, ...COMMON],
    example: 'mendwise rules check --rules my-rules',
    load: () => import('../commands/rules/check.ts'),
  },
  {
    name: 'rules coverage',
    summary: 'show which cases exercise each rule and each comparison in it',
    args: [{ name: '[rule]', help: 'the name of one rule; without it, a summary of all' }],
    options: [...COMMON],
    example: 'mendwise rules coverage more-new-than-old',
    load: () => import('../commands/rules/coverage.ts'),
  },
  {
    name: 'rules try',
    summary: 'try other rules over all cases: whose answer changes, and because of which rule',
    args: [],
    options: [{ flags: '--with <folder>', help: 'the folder of rules to try' }, ...COMMON],
    example: 'mendwise rules try --with rules-next',
    load: () => import('../commands/rules/try.ts'),
  },
];

export const rulesShowCommand: CommandSpec = {
  name: 'rules show',
  summary: 'show the rules in plain sentences',
  args: [{ name: '[rule]', help: 'the name of one rule; without it, all of them' }],
  options: [
    { flags: '--stage <stage>', help: 'only the rules of one stage, such as stop or joining' },
    { flags: '--history', help: 'show how each came to be: earlier wordings and why they changed' },
    {
      flags: '--sources',
      help: 'list every source instead, with what rests on it: rules, findings, figures',
    },
    ...STUDIO_OPTIONS,
    JSON_OPTION,
  ],
  example: 'mendwise rules show --stage stop',
  load: () => import('../commands/rules/show.ts'),
};
