import type { CaseChange } from '../../analysis/compare.ts';
import { sayOutcome } from '../../experience/due.ts';
import { counted } from './labels.ts';
import { bold, heading, type PageStyle, paragraph } from './layout.ts';

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

export function printChange(
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
