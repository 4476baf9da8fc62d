import { type CommandSpec, STUDIO_OPTIONS } from '../command.ts';

export const logCommand: CommandSpec = {
  name: 'log',
  summary: 'write down hours as worked on one operation',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[operation]', help: 'the operation; without it, the operations of this quilt are listed' },
    { name: '[hours]', help: 'such as 2.5h, 45min or 1h30' },
  ],
  options: [
    { flags: '--on <date>', help: 'the day it was worked (default: today)' },
    { flags: '--by <helper>', help: 'who worked' },
    { flags: '--count <number>', help: 'how many were done in that time' },
    { flags: '--note <text>', help: 'anything else' },
    ...STUDIO_OPTIONS,
  ],
  example: 'mendwise log barley-strips "closing seams from the front" 2.5h',
  load: () => import('../run/log.ts'),
};
