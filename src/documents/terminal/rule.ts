import type { Diagnostic } from '../../analysis/rulebook-model.ts';
import { CODES } from '../../problems/codes.ts';
import type { SaidCondition, SaidRule, SaidWording } from '../../rulebook/say-rule.ts';
import type { CitedSource } from '../../rulebook/sources.ts';
import { counted, sentenceCase } from './labels.ts';
import { bold, faint, heading, type PageStyle, paragraph } from './layout.ts';

/** A rule as plain sentences, nested conditions as indented lines. */
export function printRule(said: SaidRule, style: PageStyle): string {
  return [
    bold(paragraph(said.title, style), style),
    faint(paragraph(`${said.rule}; stage: ${said.stage}`, style, '  '), style),
    ...when(said.when, style),
    ...said.does.map((effect, index) =>
      paragraph(
        `${sentenceCase(effect)}${/[.!?]$/.test(effect) ? '' : '.'}`,
        style,
        index === 0 ? '  Then: ' : '        ',
      ),
    ),
    paragraph(said.because, style, '  Because: ', '    '),
    paragraph(evidence(said), style, '  Evidence: ', '    '),
    paragraph(dates(said), style, '  Since: ', '    '),
    ...(said.yields_to.length === 0
      ? []
      : [paragraph(said.yields_to.join(', '), style, '  Gives way to: ', '    ')]),
  ].join('\n');
}

/** A source that only repeats the kind of evidence is said once. */
const evidence = ({ evidence: kind, source }: SaidRule): string =>
  source.startsWith(kind) ? source : `${kind}; ${source}`;

const dates = ({ since, until }: SaidRule): string => (until === null ? since : `${since}, until ${until}`);

const LEADS = {
  'all of these': 'When all of these hold:',
  'any of these': 'When any of these holds:',
  not: 'When this does not hold:',
} as const;
const INNER = {
  'all of these': 'all of these hold:',
  'any of these': 'any of these holds:',
  not: 'this does not hold:',
} as const;

function when(condition: SaidCondition, style: PageStyle): string[] {
  if (typeof condition === 'string') return [paragraph(`${condition}.`, style, '  When ', '    ')];
  return [`  ${LEADS[condition.lead]}`, ...parts(condition, style, '    ')];
}

function parts(group: Exclude<SaidCondition, string>, style: PageStyle, indent: string): string[] {
  const word = group.lead === 'any of these' ? 'or ' : 'and ';
  return group.of.flatMap((part, index) => {
    const lead = `${indent}- ${index === 0 ? '' : word}`;
    if (typeof part === 'string') return [paragraph(part, style, lead, `${indent}  `)];
    return [`${lead}${INNER[part.lead]}`, ...parts(part, style, `${indent}    `)];
  });
}

/** Earlier wordings of a rule, the latest change first. Nothing where the history was not asked for. */
export function printHistory(was: readonly SaidWording[] | undefined, style: PageStyle): string[] {
  if (was === undefined) return [];
  if (was.length === 0) return ['  History: it reads as it was first written.'];
  return [
    '  History:',
    ...was.flatMap(({ until, reason, changed }) => [
      paragraph(`changed on ${until}: ${reason}`, style, '    '),
      ...changed.map((line) => paragraph(`before, ${line}`, style, '      ')),
    ]),
  ];
}

/** A remark with the place of every rule concerned and the case in which it shows. */
export function printRemark(diagnostic: Diagnostic, style: PageStyle): string {
  const { severity, what, code, rules, example } = diagnostic;
  const entry = CODES[code];
  return [
    paragraph(`${bold(`${severity}:`, style)} ${what} ${faint(`[${code}]`, style)}`, style, '', '  '),
    ...rules.map(({ id, place }) => `  ${place.file}:${place.line}:${place.column}: ${id}`),
    ...(example.length === 0
      ? []
      : ['  For example:', ...example.map((line) => paragraph(line, style, '    - ', '      '))]),
    ...(severity === 'note'
      ? []
      : [
          paragraph(diagnostic.why ?? entry.cause, style, '  Why: '),
          paragraph(diagnostic.cure ?? entry.cure, style, '  Do: '),
        ]),
  ].join('\n');
}

/** Every source under its kind, and under each source what rests on it. */
export function printSources(sources: readonly CitedSource[], style: PageStyle): string {
  return [
    counted(sources.length, 'source'),
    ...sources.flatMap((each, index, all) => {
      const before = all[index - 1];
      return [
        ...(before !== undefined && kind(before) === kind(each) ? [] : [heading(kind(each), style)]),
        paragraph(each.source, style, '  - ', '    '),
        ...cited('rules', each.rules, style),
        ...cited('findings', each.findings, style),
        ...cited('figures', each.figures, style),
      ];
    }),
  ].join('\n');
}

const kind = ({ evidence, from_memory }: CitedSource): string =>
  `${sentenceCase(evidence)}${from_memory ? ', from memory' : ''}`;

const cited = (what: string, names: readonly string[], style: PageStyle): string[] =>
  names.length === 0 ? [] : [faint(paragraph(names.join(', '), style, `    ${what}: `, '      '), style)];
