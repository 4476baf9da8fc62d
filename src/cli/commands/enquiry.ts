import type { CommandSpec } from '../command.ts';
import { INTERVIEW_OPTIONS } from './interview-options.ts';

export const enquiryCommand: CommandSpec = {
  name: 'enquiry',
  summary: 'begin a case from a first message and photos: safety, wishes, what it means',
  args: [{ name: '[name]', help: 'a short name for the quilt, such as lantern-ninepatch' }],
  options: INTERVIEW_OPTIONS,
  example: 'mendwise enquiry lantern-ninepatch',
  load: () => import('../run/enquiry.ts'),
};
