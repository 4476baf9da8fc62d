import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const whatifCommand: CommandSpec = {
  name: 'whatif',
  summary: 'show what changing some findings would do to the answer',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[changes...]', help: 'finding=value, such as intended_use=storage or A.fragility=weak' },
  ],
  options: [...STUDIO_OPTIONS, AS_OF, JSON_OPTION],
  example: 'mendwise whatif lantern-ninepatch intended_use=regular_bed',
  load: () => import('../run/whatif.ts'),
};
