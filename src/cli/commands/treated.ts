import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const treatedCommand: CommandSpec = {
  name: 'treated',
  summary: 'write down what was done about a hazard, and who confirms it: it lifts the stop it answers',
  args: [{ name: '<case>', help: 'a case file, or the name of a case in the studio' }],
  options: [
    {
      flags: '--hazard <hazard>',
      help: 'mould, damp, insects, rodent_waste, sewage_or_fuel, poison or smell',
    },
    { flags: '--how <what>', help: 'what was done, in a sentence, or why it was noted by mistake' },
    { flags: '--by <who>', help: 'who did it' },
    { flags: '--confirmed-by <who>', help: 'who confirms it in writing' },
    { flags: '--on <date>', help: 'the day it was done (default: today)' },
    ...STUDIO_OPTIONS,
    JSON_OPTION,
  ],
  example:
    'mendwise treated barley-strips --hazard insects --how "two weeks at -25 C, sealed" --by helper-a --confirmed-by "pest professional, report 114"',
  load: () => import('../run/treated.ts'),
};
