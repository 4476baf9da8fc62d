import { retire } from '../../../analysis/revise.ts';
import { openStudio, relativeName } from '../../../store/studio.ts';
import { type Action, studioOptions } from '../../command.ts';
import { dayOf, fileOf, namedRule, rewrite, wanted } from './rule-file.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const rule = namedRule(studio.knowledge.rulebook.rules, typed.args[0] ?? '');
  const on = dayOf(typed, terminal);
  const reason = await wanted(typed, terminal, 'because', 'Why is it retired?');
  const name = fileOf(rule.group);
  await rewrite(studio.rulesFolder, name, (source) => retire(source, rule.id, { on, reason }), terminal);
  terminal.out(
    `Retired "${rule.id}" in ${relativeName(studio.rulesFolder)}/${name}: it holds until the day before ${on}.`,
  );
  return 0;
};
