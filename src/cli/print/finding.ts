import type { FindingDef, Knower, Vocabulary } from '../../findings/vocabulary.ts';
import { lookLines } from '../ask/look.ts';
import { bold, type PageStyle, paragraph } from './layout.ts';

/** Who can know a finding, as one would say it. */
const KNOWER_WORDS: Readonly<Record<Knower, string>> = {
  client: 'the client can be asked',
  photos: 'whoever looks at the photos',
  'in hand': 'whoever has the quilt in hand',
  studio: 'the studio itself',
};

/** What the vocabulary says of one finding: question, signs, how to look, who can know it, source. */
export function printFinding(def: FindingDef, vocabulary: Vocabulary, style: PageStyle): string {
  const line = (name: string, text: string): string => paragraph(text, style, `  ${name}: `, '    ');
  return [
    bold(paragraph(`${def.id}: ${def.label}`, style), style),
    ...(def.question === undefined
      ? ['  Worked out from the survey, never asked.']
      : [line('Question', def.question)]),
    ...(def.at === 'derived' ? [] : [line('In a case file', place(def))]),
    ...(def.kind === 'grade' || def.options.length === 0
      ? []
      : [
          line(
            'Choices',
            def.options
              .map(({ value, label }) => (value === label ? value : `${value} (${label})`))
              .join(', '),
          ),
        ]),
    ...lookLines(def, vocabulary).map((text) => paragraph(text, style, '  ', '    ')),
    ...(def.who === undefined ? [] : [line('Who can know it', KNOWER_WORDS[def.who])]),
    line('Evidence', def.source.startsWith(def.evidence) ? def.source : `${def.evidence}; ${def.source}`),
  ].join('\n');
}

const place = ({ at, id }: FindingDef): string =>
  at === 'survey.findings' ? `survey.findings.${id}` : at.replace('*', '<letter>');
