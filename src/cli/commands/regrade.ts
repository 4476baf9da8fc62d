import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const regradeCommand: CommandSpec = {
  name: 'regrade',
  summary: 'pick units for a second helper to grade blind, and take the grades',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    {
      name: '[grades...]',
      help: 'what was found, such as A3=hole B7=. A=worn (unit or fabric = state, mark or grade)',
    },
  ],
  options: [
    { flags: '--as <helper>', help: 'who grades again; needed when grades are given' },
    { flags: '--round <number>', help: 'another sample of the same quilt: 2, 3, …' },
    ...STUDIO_OPTIONS,
    JSON_OPTION,
  ],
  example: 'mendwise regrade breakwater-squares --as helper-c',
  load: () => import('../run/regrade.ts'),
};
