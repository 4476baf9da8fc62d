import { amend, type Setting } from '../../../analysis/revise.ts';
import { ProblemError } from '../../../problems/problem.ts';
import { openStudio, relativeName } from '../../../store/studio.ts';
import { type Action, studioOptions, type Typed } from '../../command.ts';
import { dayOf, fileOf, namedRule, rewrite, typedValue, wanted } from './rule-file.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const rule = namedRule(studio.knowledge.rulebook.rules, typed.args[0] ?? '');
  const settings = settingsOf(typed);
  const on = dayOf(typed, terminal);
  const reason = await wanted(typed, terminal, 'because', 'Why is it changed?');
  const name = fileOf(rule.group);
  await rewrite(
    studio.rulesFolder,
    name,
    (source) => amend(source, rule.id, settings, { on, reason }),
    terminal,
  );
  terminal.out(
    `Amended "${rule.id}" in ${relativeName(studio.rulesFolder)}/${name}, from ${on}. "mendwise rules show ${rule.id} --history" shows how it came to be.`,
  );
  return 0;
};

function settingsOf(typed: Typed): Setting[] {
  const given = Array.isArray(typed.options.set) ? typed.options.set.map(String) : [];
  const settings = given.map((text): Setting => {
    const at = text.indexOf('=');
    if (at < 1) throw usage(`"${text}" does not say what should stand where`);
    const value = text.slice(at + 1).trim();
    return { path: text.slice(0, at).trim(), value: value === '' ? undefined : typedValue('set', value) };
  });
  if (settings.length === 0) throw usage('nothing was said to change');
  return settings;
}

const usage = (what: string): ProblemError =>
  new ProblemError([
    {
      code: 'usage',
      severity: 'error',
      what,
      cure: 'Write path, equals sign, value, such as --set "when.all.0.at most=20 %" or --set "title=A new title".',
    },
  ]);
