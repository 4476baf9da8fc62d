import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const decideCommand: CommandSpec = {
  name: 'decide',
  summary: 'recommend a treatment for a case, and say why',
  args: [{ name: '<case>', help: 'a case file, or the name of a case in the studio' }],
  options: [
    ...STUDIO_OPTIONS,
    AS_OF,
    {
      flags: '--quick',
      help: 'leave out what would change the answer, what to check next and how firm it is',
    },
    JSON_OPTION,
  ],
  example: 'mendwise decide cases/lantern-ninepatch.yaml',
  load: () => import('../run/decide.ts'),
};
