import { counted } from '../../../documents/phrases.ts';
import { printHistory, printRule, printSources } from '../../../documents/terminal/rule.ts';
import { type Problem, ProblemError } from '../../../problems/problem.ts';
import type { Knowledge } from '../../../rulebook/knowledge.ts';
import { type Rule, STAGES } from '../../../rulebook/model.ts';
import { sayHistory, sayRule } from '../../../rulebook/say-rule.ts';
import { sourcesOf } from '../../../rulebook/sources.ts';
import { suggest } from '../../../source/suggest.ts';
import { openStudio } from '../../../store/studio.ts';
import type { Terminal } from '../../../store/terminal.ts';
import { type Action, type ExitCode, studioOptions, type Typed, textOption } from '../../command.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  if (typed.options.sources === true) return showSources(studio.knowledge, typed, terminal);
  const { rulebook, subjects } = studio.knowledge;
  const chosen = choose(rulebook.rules, typed.args[0], textOption(typed, 'stage'));
  const history = typed.options.history === true;
  const said = chosen.map((rule) => ({
    ...sayRule(rule, subjects, studio.practice.settings),
    ...(history ? { was: sayHistory(rule) } : {}),
  }));
  if (typed.options.json === true) {
    terminal.out(JSON.stringify(typed.args[0] === undefined ? said : said[0], null, 2));
    return 0;
  }
  const style = { color: terminal.color, width: terminal.width };
  const total = typed.args[0] === undefined ? [counted(said.length, 'rule')] : [];
  terminal.out(
    [
      ...said.map((rule) => [printRule(rule, style), ...printHistory(rule.was, style)].join('\n')),
      ...total,
    ].join('\n\n'),
  );
  return 0;
};

/** One list for all rules, findings and figures: part of them would hide what else rests on the same source. */
function showSources(knowledge: Knowledge, { args, options }: Typed, terminal: Terminal): ExitCode {
  if (args[0] !== undefined || options.stage !== undefined || options.history === true) {
    const cure = 'Leave out the rule, --stage and --history, or leave out --sources.';
    throw refused(
      'usage',
      '--sources lists the sources of all rules, and something else was asked for too',
      undefined,
      cure,
    );
  }
  const sources = sourcesOf(knowledge);
  terminal.out(
    options.json === true
      ? JSON.stringify(sources, null, 2)
      : printSources(sources, { color: terminal.color, width: terminal.width }),
  );
  return 0;
}

/** The rules asked for: one by its name, or those of a stage, in stage order. */
function choose(
  rules: readonly Rule[],
  name: string | undefined,
  stage: string | undefined,
): readonly Rule[] {
  if (name !== undefined) {
    const found = rules.find(({ id }) => id === name);
    if (found !== undefined) return [found];
    const near = suggest(
      name,
      rules.map(({ id }) => id),
    );
    throw refused(
      'unknown-rule',
      `there is no rule "${name}"`,
      near,
      '"mendwise rules show" lists them all.',
    );
  }
  if (stage === undefined) return rules;
  const stages: readonly string[] = [...STAGES, 'units'];
  if (!stages.includes(stage)) {
    const cure = `Use one of ${stages.join(', ')}.`;
    throw refused('not-an-option', `there is no stage "${stage}"`, suggest(stage, stages), cure);
  }
  return rules.filter(({ group }) => group === stage);
}

const refused = (code: Problem['code'], what: string, near: string | undefined, cure: string): ProblemError =>
  new ProblemError([
    { code, severity: 'error', what, cure, ...(near === undefined ? {} : { didYouMean: near }) },
  ]);
