import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const casesCommand: CommandSpec = {
  name: 'cases',
  summary: 'list the cases of the studio, and where each stands',
  args: [],
  options: [
    { flags: '--standing <standing>', help: 'only those that stand so: go_ahead, not_yet, refer or decline' },
    {
      flags: '--treatment <treatment>',
      help: 'only those with this recommendation: leave, reassemble, backing, tie, lines or none',
    },
    { flags: '--use <use>', help: 'only those meant for this use, such as guest_bed' },
    { flags: '--undecided', help: 'only those for which no decision is written down yet' },
    {
      flags: '--due',
      help: 'only those whose follow-up at 6, 12 or 24 months is due, the longest due first',
    },
    { flags: '--check', help: 'check each answer against what its case expects; exits 1 where one differs' },
    ...STUDIO_OPTIONS,
    AS_OF,
    JSON_OPTION,
  ],
  example: 'mendwise cases --standing not_yet',
  load: () => import('../run/cases.ts'),
};
