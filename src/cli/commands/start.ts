import { type CommandSpec, STUDIO_OPTIONS } from '../command.ts';

export const startCommand: CommandSpec = {
  name: 'start',
  summary: 'make a studio folder: settings, rules to edit, and a sample case',
  args: [{ name: '<folder>', help: 'a new or empty folder' }],
  options: [
    {
      flags: '--demo',
      help: 'add invented cases with second surveys, follow-ups and hours, to try everything on',
    },
    ...STUDIO_OPTIONS.filter(({ flags }) => flags.startsWith('--rules')),
  ],
  example: 'mendwise start my-studio',
  load: () => import('../run/start.ts'),
};
