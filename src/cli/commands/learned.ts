import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';
import { REPLACE_OPTION } from '../write-out.ts';

export const learnedCommand: CommandSpec = {
  name: 'learned',
  summary: 'compare forecasts with what became of them, and propose figures that fit',
  args: [],
  options: [
    { flags: '--accept <figure...>', help: 'write proposals into figures.yaml: names of figures, or all' },
    { flags: '--html <file>', help: 'write it as a page; - writes it to the terminal' },
    REPLACE_OPTION,
    ...STUDIO_OPTIONS,
    AS_OF,
    JSON_OPTION,
  ],
  example: 'mendwise learned --accept life.repair_due.worn',
  load: () => import('../run/learned.ts'),
};
