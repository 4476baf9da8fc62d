import type { CommandSpec } from '../command.ts';
import { INTERVIEW_OPTIONS } from './interview-options.ts';

export const surveyCommand: CommandSpec = {
  name: 'survey',
  summary: 'take a survey of a quilt: fabrics, layers, the map of units, seams',
  args: [{ name: '<case>', help: 'the name of a case in the studio' }],
  options: [
    { flags: '--as <helper>', help: 'survey it again as another helper, without seeing the first survey' },
    ...INTERVIEW_OPTIONS,
  ],
  example: 'mendwise survey lantern-ninepatch',
  load: () => import('../run/survey.ts'),
};
