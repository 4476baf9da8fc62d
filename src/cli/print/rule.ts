import type { SaidCondition, SaidRule } from '../../rulebook/say-rule.ts';
import { sentenceCase } from './labels.ts';
import { bold, faint, type PageStyle, paragraph } from './layout.ts';

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
