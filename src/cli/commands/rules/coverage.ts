import { coverage, type RuleCoverage, unreached } from '../../../analysis/coverage.ts';
import { studyOf } from '../../../analysis/study.ts';
import { printCoverage, printSummary } from '../../../documents/terminal/coverage.ts';
import { inForce } from '../../../rulebook/assemble.ts';
import { allCases } from '../../../store/case-files.ts';
import { openStudio } from '../../../store/studio.ts';
import { tellProblems } from '../../../store/terminal.ts';
import { type Action, asOf, studioOptions } from '../../command.ts';
import { namedRule } from './rule-file.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const day = asOf(typed, terminal);
  const knowledge = { ...studio.knowledge, rulebook: inForce(studio.knowledge.rulebook, day) };
  const [name] = typed.args;
  const rules = name === undefined ? knowledge.rulebook.rules : [namedRule(knowledge.rulebook.rules, name)];
  const { texts, problems } = await allCases(studio);
  const style = { color: terminal.color, width: terminal.width };
  tellProblems(problems, terminal);
  const studies = texts.map((text) => studyOf(text, knowledge, studio.practice, day));
  const covered = coverage(rules, studies, knowledge.subjects);
  const missing = unreached(covered);
  const complete = missing.rules.length + missing.tests.length + missing.edges.length === 0;
  if (typed.options.json === true) terminal.out(JSON.stringify(covered.map(asData), null, 2));
  else if (name !== undefined)
    terminal.out(covered.map((each) => printCoverage(each, knowledge.subjects, style)).join('\n\n'));
  else terminal.out(printSummary(covered, { missing, cases: texts.length }, knowledge.subjects, style));
  if (problems.some(({ severity }) => severity === 'error')) return 2;
  return complete ? 0 : 1;
};

const sorted = (names: ReadonlySet<string>): string[] => [...names].sort();

const asData = ({ rule, cases, tests }: RuleCoverage) => ({
  rule: rule.id,
  true: sorted(cases.true),
  false: sorted(cases.false),
  undecided: sorted(cases.undecided),
  tests: tests.map(({ test, cases: own, edges }) => ({
    key: test.key,
    comparison: test.comparison,
    operand: test.operand ?? null,
    line: test.place.line,
    true: sorted(own.true),
    false: sorted(own.false),
    undecided: sorted(own.undecided),
    marks: edges.map(({ mark, inside, outside }) => ({
      mark,
      inside: sorted(inside),
      outside: sorted(outside),
    })),
  })),
});
