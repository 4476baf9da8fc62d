import { REPLACE_OPTION } from '../../store/write-out.ts';
import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

export const startCommand: CommandSpec = {
  name: 'start',
  summary: 'make a studio folder: settings, rules to edit, and a sample case',
  args: [{ name: '<folder>', help: 'a new or empty folder' }],
  options: [
    {
      flags: '--demo',
      help: 'add invented cases with second surveys, follow-ups and hours, to try everything on',
    },
    ...STUDIO_OPTIONS.filter(({ flags }) => flags.startsWith('--rules')),
  ],
  example: 'mendwise start my-studio',
  load: () => import('../commands/start.ts'),
};

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
  load: () => import('../commands/followup.ts'),
};

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
  load: () => import('../commands/learned.ts'),
};

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
  load: () => import('../commands/helpers.ts'),
};

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
  load: () => import('../commands/regrade.ts'),
};

export const restoreCommand: CommandSpec = {
  name: 'restore',
  summary: 'bring back an earlier version of a case; the present one is kept first',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[version]', help: 'the version, as the list names it; without it, the list' },
  ],
  options: [...STUDIO_OPTIONS, JSON_OPTION],
  example: 'mendwise restore lantern-ninepatch 2026-03-05T10-15-00-123',
  load: () => import('../commands/restore.ts'),
};

export const doctorCommand: CommandSpec = {
  name: 'doctor',
  summary:
    'look a studio over for damage: files left behind, cases or rules that do not read, answers that changed',
  args: [],
  options: [
    { flags: '--mend', help: 'set aside what killed programs left behind; everything else is only told' },
    ...STUDIO_OPTIONS,
    AS_OF,
    JSON_OPTION,
  ],
  example: 'mendwise doctor --mend',
  load: () => import('../commands/doctor.ts'),
};

export const explainCommand: CommandSpec = {
  name: 'explain',
  summary: 'explain an error code, or a finding and how to look for it',
  args: [{ name: '[name]', help: 'a code from a message, or a finding; without it, the lists of both' }],
  options: [...STUDIO_OPTIONS, JSON_OPTION],
  example: 'mendwise explain backing_fragility',
  load: () => import('../commands/explain.ts'),
};
