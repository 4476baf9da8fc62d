import { type RuleGroup, STAGES } from './model.ts';

/** The files of a rules folder that hold rules, by their names in it. */
export const RULE_FILES: readonly { readonly name: string; readonly group: RuleGroup }[] = [
  { name: 'units.yaml', group: 'units' },
  ...STAGES.map((stage) => ({ name: `stages/${stage}.yaml`, group: stage })),
];

/** Every file of a rules folder that is read for a decision. */
export const KNOWLEDGE_FILES: readonly string[] = [
  'findings.yaml',
  'figures.yaml',
  ...RULE_FILES.map(({ name }) => name),
];
