import { REPLACE_OPTION } from '../../store/write-out.ts';
import { AS_OF, type CommandSpec, INTERVIEW_OPTIONS, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

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
  load: () => import('../commands/decide.ts'),
};

export const casesCommand: CommandSpec = {
  name: 'cases',
  summary: 'list the cases of the studio, and where each stands',
  args: [],
  options: [
    { flags: '--standing <standing>', help: 'only those that stand so: go_ahead, not_yet, refer or decline' },
    {
      flags: '--treatment <treatment>',
      help: 'only those with this recommendation: leave, reassemble, backing, tie, lines or none',
    },
    { flags: '--use <use>', help: 'only those meant for this use, such as guest_bed' },
    { flags: '--undecided', help: 'only those for which no decision is written down yet' },
    {
      flags: '--due',
      help: 'only those whose follow-up at 6, 12 or 24 months is due, the longest due first',
    },
    { flags: '--check', help: 'check each answer against what its case expects; exits 1 where one differs' },
    ...STUDIO_OPTIONS,
    AS_OF,
    JSON_OPTION,
  ],
  example: 'mendwise cases --standing not_yet',
  load: () => import('../commands/cases.ts'),
};

export const enquiryCommand: CommandSpec = {
  name: 'enquiry',
  summary: 'begin a case from a first message and photos: safety, wishes, what it means',
  args: [{ name: '[name]', help: 'a short name for the quilt, such as lantern-ninepatch' }],
  options: INTERVIEW_OPTIONS,
  example: 'mendwise enquiry lantern-ninepatch',
  load: () => import('../commands/enquiry.ts'),
};

export const surveyCommand: CommandSpec = {
  name: 'survey',
  summary: 'take a survey of a quilt: fabrics, layers, the map of units, seams',
  args: [{ name: '<case>', help: 'the name of a case in the studio' }],
  options: [
    { flags: '--as <helper>', help: 'survey it again as another helper, without seeing the first survey' },
    { flags: '--change <finding>', help: 'put one question again, with the answer it has, and nothing else' },
    ...INTERVIEW_OPTIONS,
    {
      flags: '--opened',
      help: 'a further look with the quilt opened; --set B3=x (also without --opened) says what a square is now',
    },
    { flags: '--on <date>', help: 'the day of a further look (default: today); with --set it makes one' },
    { flags: '--by <helper>', help: 'who took a further look' },
    { flags: '--photo <file>', help: 'a photograph of a further look; may be repeated', repeats: true },
  ],
  example: 'mendwise survey lantern-ninepatch',
  load: () => import('../commands/survey.ts'),
};

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
    { flags: '--found <outcome>', help: 'harmless or present: what a test found; poison needs it' },
    { flags: '--on <date>', help: 'the day it was done (default: today)' },
    ...STUDIO_OPTIONS,
    JSON_OPTION,
  ],
  example:
    'mendwise treated barley-strips --hazard insects --how "two weeks at -25 C, sealed" --by helper-a --confirmed-by "pest professional, report 114"',
  load: () => import('../commands/treated.ts'),
};

export const whatifCommand: CommandSpec = {
  name: 'whatif',
  summary: 'show what changing some findings would do to the answer',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[changes...]', help: 'finding=value, such as intended_use=storage or A.fragility=weak' },
  ],
  options: [...STUDIO_OPTIONS, AS_OF, JSON_OPTION],
  example: 'mendwise whatif lantern-ninepatch intended_use=regular_bed',
  load: () => import('../commands/whatif.ts'),
};

export const sheetCommand: CommandSpec = {
  name: 'sheet',
  summary:
    'write a document: decision sheet, letter, estimate, report, care sheet or survey for the client, work order for whoever sews',
  args: [{ name: '<case>', help: 'a case file, or the name of a case in the studio' }],
  options: [
    ...STUDIO_OPTIONS,
    AS_OF,
    {
      flags: '--kind <kind>',
      help: 'decision, letter (whichever fits), decline, refer, not-yet, estimate, work, report, care or survey (default: what the answer asks for)',
    },
    { flags: '--format <format>', help: 'html, markdown or text (default: by the file’s ending, else html)' },
    {
      flags: '--out <file>',
      help: 'where to write; - prints it (default: CASE-KIND.html in the current folder)',
    },
    { flags: '--quick', help: 'leave out what would change the answer and how firm it is' },
    REPLACE_OPTION,
    { flags: '--open', help: 'open it when it is written' },
  ],
  example: 'mendwise sheet cases/lantern-ninepatch.yaml --kind estimate --out estimate.html',
  load: () => import('../commands/sheet.ts'),
};

export const logCommand: CommandSpec = {
  name: 'log',
  summary: 'write down hours as worked on one operation',
  args: [
    { name: '<case>', help: 'a case file, or the name of a case in the studio' },
    { name: '[operation]', help: 'the operation; without it, the operations of this quilt are listed' },
    { name: '[hours]', help: 'such as 2.5h, 45min or 1h30' },
  ],
  options: [
    { flags: '--on <date>', help: 'the day it was worked (default: today)' },
    { flags: '--by <helper>', help: 'who worked' },
    { flags: '--count <number>', help: 'how many were done in that time' },
    { flags: '--note <text>', help: 'anything else' },
    ...STUDIO_OPTIONS,
  ],
  example: 'mendwise log barley-strips "closing seams from the front" 2.5h',
  load: () => import('../commands/log.ts'),
};
