import { AS_OF, type CommandSpec, STUDIO_OPTIONS } from '../command.ts';

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
    load: () => import('../run/rules-new.ts'),
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
    load: () => import('../run/rules-amend.ts'),
  },
  {
    name: 'rules retire',
    summary: 'end a rule on a day; it is kept so that old decisions can be understood',
    args: [{ name: '<rule>', help: 'the name of the rule' }],
    options: [BECAUSE, ON, ...STUDIO_OPTIONS],
    example: 'mendwise rules retire sell-it-as-it-is --because "Buyers of ours want them mended."',
    load: () => import('../run/rules-retire.ts'),
  },
  {
    name: 'rules schema',
    summary: 'write the schemas by which editors complete and underline rule and case files',
    args: [],
    options: [...STUDIO_OPTIONS],
    example: 'mendwise rules schema',
    load: () => import('../run/rules-schema.ts'),
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
    load: () => import('../run/rules-book.ts'),
  },
];
