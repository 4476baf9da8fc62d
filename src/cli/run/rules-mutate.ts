import { type MutantResult, mutate } from '../../analysis/mutate.ts';
import { studyOf } from '../../analysis/study.ts';
import { ProblemError } from '../../problems/problem.ts';
import { inForce } from '../../rulebook/in-force.ts';
import { allCases } from '../all-cases.ts';
import { asOf } from '../as-of.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { counted } from '../print/labels.ts';
import { paragraph } from '../print/layout.ts';
import { openStudio } from '../studio.ts';
import { tellProblems } from '../tell-problems.ts';
import { namedRule } from './named-rule.ts';

export const action: Action = async (typed, terminal) => {
  const least = share(typed);
  const studio = await openStudio(studioOptions(typed));
  const day = asOf(typed, terminal);
  const knowledge = { ...studio.knowledge, rulebook: inForce(studio.knowledge.rulebook, day) };
  const [name] = typed.args;
  const { rules } = knowledge.rulebook;
  const chosen = name === undefined ? rules : [namedRule(rules, name)];
  const { texts, problems } = await allCases(studio);
  const style = { color: terminal.color, width: terminal.width };
  tellProblems(problems, terminal);
  const studies = texts.map((text) => studyOf(text, knowledge, studio.practice, day));
  const results = mutate(chosen, studies, { knowledge, asOf: day });
  const living = results.filter(({ caughtBy, equivalent }) => caughtBy === undefined && !equivalent);
  const alike = results.filter(({ equivalent }) => equivalent).length;
  const of = results.length - alike;
  const caught = of === 0 ? 1 : 1 - living.length / of;
  if (typed.options.json === true) terminal.out(JSON.stringify(results.map(asData), null, 2));
  else {
    const percent = Math.floor(caught * 1000) / 10;
    terminal.out(
      [
        ...living.map(({ mutant: { rule, what, test } }) => {
          const line = (test ?? rule).place.line;
          return paragraph(
            `${rule.place.file}:${line}: ${rule.id}: no case notices when ${what}`,
            style,
            '',
            '    ',
          );
        }),
        paragraph(
          `${counted(results.length, 'mutant')} of ${counted(chosen.length, 'rule')} against ${counted(texts.length, 'case')}: ${of - living.length} of ${of} caught (${percent} %), ${living.length} unnoticed${alike === 0 ? '' : `; ${alike} more say the same as their rule and are not counted`}.`,
          style,
        ),
      ].join('\n'),
    );
  }
  return caught * 100 >= least ? 0 : 1;
};

const asData = ({ mutant: { rule, kind, what, test }, caughtBy, equivalent }: MutantResult) => ({
  rule: rule.id,
  file: rule.place.file,
  line: (test ?? rule).place.line,
  kind,
  what,
  caught_by: caughtBy ?? null,
  equivalent,
});

function share(typed: Typed): number {
  const given = textOption(typed, 'least');
  const value = given === undefined ? 95 : Number(given.replace(/\s*%$/, ''));
  if (value >= 0 && value <= 100) return value;
  throw new ProblemError([
    {
      code: 'out-of-range',
      severity: 'error',
      what: `--least is "${given}"; it should lie between 0 and 100`,
      cure: 'Write a percentage, such as 95.',
    },
  ]);
}
