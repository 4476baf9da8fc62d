import { STUDIO_OPTIONS } from '../command.ts';

/** Every question has an equivalent here: the same names as in a case file, or a finding's own. */
export const INTERVIEW_OPTIONS = [
  {
    flags: '--set <path=value>',
    help: 'answer by its place in the case file or its finding, such as damp=no; may be repeated',
    repeats: true,
  },
  { flags: '--from <file>', help: 'take answers from a part of a case file' },
  { flags: '--yes', help: 'ask nothing: write what is given' },
  ...STUDIO_OPTIONS,
] as const;
