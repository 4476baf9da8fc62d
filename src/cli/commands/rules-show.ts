import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

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
  load: () => import('../run/rules-show.ts'),
};
