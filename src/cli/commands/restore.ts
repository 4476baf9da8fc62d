import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const restoreCommand: CommandSpec = {
  name: 'restore',
  summary: 'bring back an earlier version of a case; the present one is kept first',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[version]', help: 'the version, as the list names it; without it, the list' },
  ],
  options: [...STUDIO_OPTIONS, JSON_OPTION],
  example: 'mendwise restore lantern-ninepatch 2026-03-05T10-15-00-123',
  load: () => import('../run/restore.ts'),
};
