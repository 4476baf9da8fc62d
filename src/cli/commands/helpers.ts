import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';
import { REPLACE_OPTION } from '../write-out.ts';

export const helpersCommand: CommandSpec = {
  name: 'helpers',
  summary: 'compare surveys of the same quilts: what to settle first, and how far helpers agree',
  args: [{ name: '[case]', help: 'one case; without it, every case surveyed more than once' }],
  options: [
    { flags: '--html <file>', help: 'write the page to look at together; - writes it to the terminal' },
    REPLACE_OPTION,
    ...STUDIO_OPTIONS,
    AS_OF,
    JSON_OPTION,
  ],
  example: 'mendwise helpers --html training.html',
  load: () => import('../run/helpers.ts'),
};
