import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

const COMMON = [...STUDIO_OPTIONS, AS_OF, JSON_OPTION] as const;

/** Commands that read the rulebook and say something about it. */
export const RULES_ANALYSIS: readonly CommandSpec[] = [
  {
    name: 'rules check',
    summary: 'check the rules: faults of writing, contradictions, gaps, thresholds',
    args: [],
    options: [{ flags: '--notes', help: 'show notes in full as well as errors and warnings' }, ...COMMON],
    example: 'mendwise rules check --rules my-rules',
    load: () => import('../run/rules-check.ts'),
  },
  {
    name: 'rules coverage',
    summary: 'show which cases exercise each rule and each comparison in it',
    args: [{ name: '[rule]', help: 'the name of one rule; without it, a summary of all' }],
    options: [...COMMON],
    example: 'mendwise rules coverage more-new-than-old',
    load: () => import('../run/rules-coverage.ts'),
  },
  {
    name: 'rules try',
    summary: 'try other rules over all cases: whose answer changes, and because of which rule',
    args: [],
    options: [
      { flags: '--with <folder>', help: 'the folder of rules to try' },
      {
        flags: '--workers <count>',
        help: 'threads to use (default: one a core, where there are many cases)',
      },
      ...COMMON,
    ],
    example: 'mendwise rules try --with rules-next',
    load: () => import('../run/rules-try.ts'),
  },
];
