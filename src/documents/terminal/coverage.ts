import type { CaseChange } from '../../analysis/compare.ts';
import type { Edge, RuleCoverage, Tally, Unreached } from '../../analysis/coverage.ts';
import { sayFact } from '../../analysis/rulebook-model.ts';
import { sayOutcome } from '../../experience/due.ts';
import { comparison } from '../../rulebook/comparisons.ts';
import type { Rule, Test } from '../../rulebook/model.ts';
import type { Subjects } from '../../rulebook/subjects.ts';
import { counted } from './labels.ts';
import { bold, heading, type PageStyle, paragraph } from './layout.ts';

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

const GRAVEST = ['reading', 'standing', 'treatment', 'refused uses'];

/** 0 for the gravest. */
const gravity = ({ changes }: CaseChange): number =>
  Math.min(...changes.map(({ of }) => (GRAVEST.includes(of) ? GRAVEST.indexOf(of) : GRAVEST.length)));

const gravestFirst = (changes: readonly CaseChange[]): CaseChange[] =>
  [...changes].sort((a, b) => gravity(a) - gravity(b));

/** Summary first, then each case that changes, the gravest change first. */
export function printTried(
  changes: readonly CaseChange[],
  rules: readonly string[],
  cases: number,
  style: PageStyle,
): string {
  const having = (of: string): number =>
    changes.filter((each) => each.changes.some((change) => change.of === of)).length;
  const kinds = [
    'reading',
    'standing',
    'treatment',
    'refused uses',
    'rules cited',
    'rules undecided',
    'price',
  ];
  const sums = kinds.map((of) => ({ of, count: having(of) })).filter(({ count }) => count > 0);
  return [
    paragraph(
      `${counted(changes.length, 'case')} of ${cases} change; ${counted(rules.length, 'rule')} differ${rules.length === 0 ? '' : `: ${rules.join(', ')}`}.`,
      style,
    ),
    ...(sums.length === 0
      ? []
      : [paragraph(sums.map(({ of, count }) => `${of}: ${count}`).join('; '), style, '  ')]),
    ...gravestFirst(changes).map((change) => printChange(change, style)),
  ].join('\n');
}

function printChange(
  { case: name, from, changes, because, decided, outcome }: CaseChange,
  style: PageStyle,
): string {
  return [
    heading(`${name} (${from})`, style),
    ...changes.map(({ of, from: was, to }) =>
      paragraph(sayChange(of, was, to), style, `  ${bold(of, style)}: `, '    '),
    ),
    ...(because.length === 0 ? [] : [paragraph(because.join(', '), style, '  because of: ', '    ')]),
    ...decided.map(({ on, treatment, chosen, because: why, overrides }) =>
      paragraph(
        [
          `decided on ${on}: ${chosen ?? treatment ?? 'no treatment'}`,
          ...(overrides === undefined ? [] : [`against ${overrides.join(', ')}`]),
          ...(why === undefined ? [] : [why]),
        ].join('; '),
        style,
        '  ',
        '    ',
      ),
    ),
    ...(outcome === null ? [] : [paragraph(`since then: ${sayOutcome(outcome)}`, style, '  ', '    ')]),
  ].join('\n');
}

/** Of lists only what came and what went is said. */
function sayChange(of: string, was: string, to: string): string {
  if (!of.startsWith('rules')) return `${was} becomes ${to}`;
  const [old, now] = [was, to].map((list) => (list === 'none' ? [] : list.split(', ')));
  const gone = (old ?? []).filter((rule) => !(now ?? []).includes(rule));
  const come = (now ?? []).filter((rule) => !(old ?? []).includes(rule));
  return [
    ...(come.length === 0 ? [] : [`now ${come.join(', ')}`]),
    ...(gone.length === 0 ? [] : [`no longer ${gone.join(', ')}`]),
  ].join('; ');
}
