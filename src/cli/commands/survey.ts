import type { CommandSpec } from '../command.ts';
import { INTERVIEW_OPTIONS } from './interview-options.ts';

export const surveyCommand: CommandSpec = {
  name: 'survey',
  summary: 'take a survey of a quilt: fabrics, layers, the map of units, seams',
  args: [{ name: '<case>', help: 'the name of a case in the studio' }],
  options: INTERVIEW_OPTIONS,
  example: 'mendwise survey lantern-ninepatch',
  load: () => import('../run/survey.ts'),
};
