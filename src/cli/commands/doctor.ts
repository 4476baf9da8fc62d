import { AS_OF, type CommandSpec, JSON_OPTION, STUDIO_OPTIONS } from '../command.ts';

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
  load: () => import('../run/doctor.ts'),
};
