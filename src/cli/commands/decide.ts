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
    { flags: '--record', help: 'record the recommendation in the case' },
    { flags: '--choose <treatment>', help: 'record that you decide otherwise (with --because)' },
    {
      flags: '--client <words...>',
      help: 'record what the client chose: --client chose backing (with --because)',
    },
    { flags: '--because <reason>', help: 'why, in a sentence' },
    {
      flags: '--risk-note <text>',
      help: 'what is risked, where a choice goes against what the cloth can bear',
    },
    { flags: '--by <helper>', help: 'who decides, by reference' },
    {
      flags: '--as-recorded [which]',
      help: 'make a recorded decision again as it was: the last, or by number or date',
    },
    JSON_OPTION,
  ],
  example: 'mendwise decide cases/lantern-ninepatch.yaml',
  load: () => import('../run/decide.ts'),
};
