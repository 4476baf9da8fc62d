import { type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const followupCommand: CommandSpec = {
  name: 'followup',
  summary: 'write down how a repair has held: use, washings, new openings',
  args: [{ name: '<case>', help: 'a case file, or the name of a case in the studio' }],
  options: [
    { flags: '--on <date>', help: 'the day it was seen or told (default: today)' },
    { flags: '--by <helper>', help: 'who saw it or asked' },
    { flags: '--seen <how>', help: 'in hand, photos or told' },
    { flags: '--use <use>', help: 'the use actually made of it, such as guest_bed' },
    { flags: '--washings <number>', help: 'washings since the last follow-up' },
    { flags: '--washing <how>', help: 'none, hand or machine' },
    { flags: '--old-cloth <number>', help: 'new openings in old cloth' },
    { flags: '--old-joins <number>', help: 'old joins newly open' },
    { flags: '--junctions <number>', help: 'joins of old and new come open' },
    { flags: '--new-work <number>', help: 'openings in new work' },
    { flags: '--due <yes|no>', help: 'whether it needs its next repair' },
    { flags: '--choose-again <yes|no>', help: 'whether the client would choose this again' },
    { flags: '--photo <file>', help: 'a photograph taken; may be repeated', repeats: true },
    { flags: '--note <text>', help: 'anything else' },
    { flags: '--completed <date>', help: 'the day the work was done, where the case does not say' },
    {
      flags: '--treatment <treatment>',
      help: 'the treatment carried out, where it was not the one recommended',
    },
    { flags: '--holes <number>', help: 'new holes in old cloth, as counted on the bench' },
    ...STUDIO_OPTIONS,
    JSON_OPTION,
  ],
  example: 'mendwise followup barley-strips --seen told --use guest_bed --washings 1 --old-joins 0 --due no',
  load: () => import('../run/followup.ts'),
};
