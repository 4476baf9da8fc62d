import { resolve } from 'node:path';
import { stringify } from 'yaml';
import { coverage, type RuleCoverage, unreached } from '../../analysis/coverage.ts';
import { examine } from '../../analysis/examined.ts';
import { skeleton } from '../../analysis/skeleton/skeleton.ts';
import { studyOf } from '../../analysis/study.ts';
import { readCase } from '../../casebook/read-case.ts';
import { saveText } from '../../casebook/save-text.ts';
import { prepare } from '../../decision/prepare.ts';
import { findingReader } from '../../findings/validators.ts';
import { inForce } from '../../rulebook/in-force.ts';
import { allCases } from '../all-cases.ts';
import { asOf } from '../as-of.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { printCoverage, printSummary } from '../print/coverage.ts';
import { openStudio, relativeName, type Studio } from '../studio.ts';
import { tellProblems } from '../tell-problems.ts';
import type { Terminal } from '../terminal.ts';
import { namedRule } from './named-rule.ts';

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const wanted = textOption(typed, 'skeleton');
  if (wanted !== undefined) return writeSkeleton(wanted, typed, studio, terminal);
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
  else terminal.out(printSummary(covered, missing, texts.length, knowledge.subjects, style));
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

async function writeSkeleton(name: string, typed: Typed, studio: Studio, terminal: Terminal) {
  const { knowledge, practice } = studio;
  const rule = namedRule(knowledge.rulebook.rules, name);
  // On the day it came into force, so that a rule still to come can be exercised too.
  const day = textOption(typed, 'asOf') === undefined ? rule.since : asOf(typed, terminal);
  const examined = examine(knowledge.rulebook, knowledge, day);
  const reader = findingReader(knowledge.vocabulary);
  const output = textOption(typed, 'output');
  const written = skeleton(rule, examined.waysTrue(rule), {
    space: examined.space,
    vocabulary: knowledge.vocabulary,
    ...(output === undefined ? {} : { name: nameOf(output) }),
    prepare: (draft) => {
      const { case: quiltCase } = readCase('draft', stringify(draft), reader);
      return quiltCase === undefined ? undefined : prepare(quiltCase, { knowledge, practice, day });
    },
  });
  if (!written.reached)
    terminal.err(`The rule could not be made true by a case alone; the file says what it asks for.`);
  if (output === undefined) terminal.out(written.text);
  else {
    await saveText(resolve(output), written.text);
    terminal.out(`Wrote ${relativeName(resolve(output))}, the smallest case of which ${rule.id} is true.`);
  }
  return written.reached ? (0 as const) : (1 as const);
}

const nameOf = (path: string): string => path.replace(/^.*[/\\]/, '').replace(/\.ya?ml$/i, '');
