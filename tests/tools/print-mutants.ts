// `npm run --silent mutants -- [RULE] [--json] [--least PERCENT]`: changes each rule a little and says which changes no
// case notices. Ends with 1 where fewer are caught than wanted.
import { parseArgs } from 'node:util';
import { namedRule } from '../../src/cli/commands/rules/rule-file.ts';
import { type MutantResult, mutate } from './mutate.ts';
import { allStudies, bookOn, runTool } from './studies.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    json: { type: 'boolean' },
    least: { type: 'string', default: '95' },
    'as-of': { type: 'string', default: '2026-12-01' },
  },
});

const asData = ({ mutant: { rule, kind, what, test }, caughtBy, equivalent }: MutantResult) => ({
  rule: rule.id,
  file: rule.place.file,
  line: (test ?? rule).place.line,
  kind,
  what,
  caught_by: caughtBy ?? null,
  equivalent,
});

runTool(async () => {
  const day = values['as-of'];
  const { studio, knowledge } = await bookOn(day);
  const { rules } = knowledge.rulebook;
  const [name] = positionals;
  const chosen = name === undefined ? rules : [namedRule(rules, name)];
  const studies = await allStudies(studio, knowledge, day);
  const results = mutate(chosen, studies, { knowledge, asOf: day });
  const living = results.filter(({ caughtBy, equivalent }) => caughtBy === undefined && !equivalent);
  const alike = results.filter(({ equivalent }) => equivalent).length;
  const of = results.length - alike;
  const percent = of === 0 ? 100 : Math.floor(1000 * (1 - living.length / of)) / 10;
  if (values.json === true) console.log(JSON.stringify(results.map(asData), null, 2));
  else {
    for (const { mutant } of living)
      console.log(
        `${mutant.rule.place.file}:${(mutant.test ?? mutant.rule).place.line}: ${mutant.rule.id}: no case notices when ${mutant.what}`,
      );
    console.log(
      `${of - living.length} of ${of} mutants of ${chosen.length} rules caught (${percent} %) by ${studies.length} cases; ${alike} more say the same as their rule.`,
    );
  }
  process.exitCode = percent >= Number(values.least) ? 0 : 1;
});
