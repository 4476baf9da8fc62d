import { add } from '../../../analysis/revise.ts';
import { ProblemError } from '../../../problems/problem.ts';
import { type RuleGroup, STAGES } from '../../../rulebook/model.ts';
import { suggest } from '../../../source/suggest.ts';
import { openStudio, relativeName } from '../../../store/studio.ts';
import { type Action, studioOptions, textOption } from '../../command.ts';
import { dayOf, fileOf, rewrite, typedValue, wanted } from './rule-file.ts';

const GROUPS: readonly RuleGroup[] = [...STAGES, 'units'];

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const on = dayOf(typed, terminal);
  const stage = stageOf(await wanted(typed, terminal, 'stage', `Which stage: ${GROUPS.join(', ')}?`));
  const title = await wanted(typed, terminal, 'title', 'What does it say, in a few words?');
  const when = await wanted(typed, terminal, 'when', 'When does it hold, as YAML?');
  const effects = await wanted(typed, terminal, 'then', 'What does it do, as YAML?');
  const because = await wanted(typed, terminal, 'because', 'Why, as the client should read it?');
  const name = fileOf(stage);
  const [rule = ''] = typed.args;
  await rewrite(
    studio.rulesFolder,
    name,
    (source) =>
      add(source, {
        rule,
        title,
        when: typedValue('when', when),
        effects: typedValue('then', effects),
        because,
        evidence: textOption(typed, 'evidence') ?? 'studio experience',
        source: textOption(typed, 'source') ?? 'studio experience, no source',
        since: on,
      }),
    terminal,
  );
  terminal.out(
    `Added "${rule}" to ${relativeName(studio.rulesFolder)}/${name}. "mendwise rules check" looks at it beside the others; "mendwise rules coverage ${rule}" shows which cases exercise it.`,
  );
  return 0;
};

function stageOf(given: string): RuleGroup {
  const found = GROUPS.find((group) => group === given);
  if (found !== undefined) return found;
  const near = suggest(given, GROUPS);
  throw new ProblemError([
    {
      code: 'not-an-option',
      severity: 'error',
      what: `there is no stage "${given}"`,
      cure: `Use one of ${GROUPS.join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}
