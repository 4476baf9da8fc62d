import type { CitedSource } from '../../rulebook/sources.ts';
import { counted, sentenceCase } from './labels.ts';
import { faint, heading, type PageStyle, paragraph } from './layout.ts';

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
