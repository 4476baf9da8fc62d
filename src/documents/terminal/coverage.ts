import type { Edge, RuleCoverage, Tally, Unreached } from '../../analysis/coverage.ts';
import { sayFact } from '../../analysis/examined.ts';
import { comparison } from '../../rulebook/comparisons.ts';
import type { Rule, Test } from '../../rulebook/model.ts';
import type { Subjects } from '../../rulebook/subjects.ts';
import { counted } from './labels.ts';
import { bold, type PageStyle, paragraph } from './layout.ts';

/** More names than this say no more than their number. */
const NAMED = 4;

const names = (cases: ReadonlySet<string>): string => {
  const sorted = [...cases].sort();
  if (sorted.length === 0) return 'no case';
  const more = sorted.length - NAMED;
  return sorted.slice(0, NAMED).join(', ') + (more > 0 ? ` and ${more} more` : '');
};

const tally = (cases: Tally, style: PageStyle, indent: string): string[] => [
  paragraph(names(cases.true), style, `${indent}true:      `),
  paragraph(names(cases.false), style, `${indent}false:     `),
  paragraph(names(cases.undecided), style, `${indent}undecided: `),
];

/** One rule with every comparison in it: which cases made it what, and which stand at its marks. */
export function printCoverage(
  { rule, cases, tests }: RuleCoverage,
  subjects: Subjects,
  style: PageStyle,
): string {
  return [
    bold(rule.id, style),
    ...tally(cases, style, '  '),
    ...tests.flatMap(({ test, cases: own, edges }) => [
      paragraph(sayTest(test), style, `  line ${test.place.line}: `, '    '),
      ...tally(own, style, '    '),
      ...edges.flatMap((edge) => [
        paragraph(
          `at ${mark(edge, subjects)}: inside ${names(edge.inside)}; outside ${names(edge.outside)}`,
          style,
          '    ',
        ),
      ]),
    ]),
  ].join('\n');
}

const sayTest = ({ key, comparison: name, operand }: Test): string =>
  [key, comparison(name).words, ...(operand === undefined ? [] : [String(operand)])].join(' ');

function mark({ test, mark: value }: Edge, subjects: Subjects): string {
  const subject = subjects.find(test.subject, test.id);
  return subject === undefined
    ? String(value)
    : (sayFact(subject, value).split(': ').at(-1) ?? String(value));
}

/** The whole book: what is reached, and what is not, line by line. */
export function printSummary(
  covered: readonly RuleCoverage[],
  { missing, cases }: { readonly missing: Unreached; readonly cases: number },
  subjects: Subjects,
  style: PageStyle,
): string {
  const at = (rule: Rule, line: number): string => `${rule.place.file}:${line}: ${rule.id}`;
  const tests = covered.flatMap((each) => each.tests);
  const marks = tests.flatMap(({ edges }) => edges);
  const open = [
    ...missing.rules.map(({ rule, never }) => `${at(rule, rule.place.line)}: no case makes it ${never}`),
    ...missing.tests.map(
      ({ rule, test, never }) => `${at(rule, test.place.line)}: "${sayTest(test)}" is ${never} in no case`,
    ),
    ...missing.edges.map(
      ({ rule, edge, never }) =>
        `${at(rule, edge.test.place.line)}: no case stands just ${never} the mark ${mark(edge, subjects)} of ${edge.test.id}`,
    ),
  ];
  const quiet = covered.filter(({ cases: { true: yes, false: no } }) => yes.size + no.size === 0);
  return [
    ...open.map((line) => paragraph(line, style, '', '    ')),
    paragraph(
      `${counted(cases, 'case')}, ${counted(covered.length, 'rule')}, ${counted(tests.length, 'comparison')}, ${counted(marks.length, 'mark')}: ${missing.rules.length + missing.tests.length} sides of rules and comparisons and ${missing.edges.length} sides of marks are not reached; ${counted(quiet.length, 'rule')} no case decides.`,
      style,
    ),
  ].join('\n');
}
