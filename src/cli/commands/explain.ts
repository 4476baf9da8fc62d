import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const explainCommand: CommandSpec = {
  name: 'explain',
  summary: 'explain an error code, or a finding and how to look for it',
  args: [{ name: '[name]', help: 'a code from a message, or a finding; without it, the lists of both' }],
  options: [...STUDIO_OPTIONS, JSON_OPTION],
  example: 'mendwise explain backing_fragility',
  load: () => import('../run/explain.ts'),
};
