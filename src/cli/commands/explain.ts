import { bold, heading, type PageStyle, paragraph, row } from '../../documents/terminal/layout.ts';
import type { FindingDef, Knower, Vocabulary } from '../../findings/vocabulary.ts';
import { lookLines } from '../../interview/finding-question.ts';
import type { CodeEntry } from '../../problems/codes/entry.ts';
import { CODES, type ProblemCode } from '../../problems/codes.ts';
import { ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { openStudio } from '../../store/studio.ts';
import { type Action, studioOptions } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const [name] = typed.args;
  const json = typed.options.json === true;
  const style = { color: terminal.color, width: terminal.width };
  if (name !== undefined && isCode(name)) {
    const entry = { code: name, ...CODES[name] };
    terminal.out(json ? JSON.stringify(entry, null, 2) : printCode(entry, style));
    return 0;
  }
  // Codes explain themselves even where the rules cannot be read: only findings need the studio.
  const { vocabulary } = (await openStudio(studioOptions(typed))).knowledge;
  if (name === undefined) {
    terminal.out(json ? JSON.stringify(listsAsData(vocabulary), null, 2) : lists(vocabulary, style));
    return 0;
  }
  const found = findingsNamed(name, vocabulary);
  if (found.length === 0) throw unknown(name, vocabulary);
  terminal.out(
    json
      ? JSON.stringify(found.length === 1 ? found[0] : found, null, 2)
      : found.map((def) => printFinding(def, vocabulary, style)).join('\n\n'),
  );
  return 0;
};

const isCode = (name: string): name is ProblemCode => Object.hasOwn(CODES, name);

/** One name may be a finding of the quilt and of each fabric, such as how far colours bleed. */
const findingsNamed = (name: string, { findings, family, unit }: Vocabulary): FindingDef[] =>
  [findings.get(name), family.get(name), unit.get(name)].filter((def) => def !== undefined);

const printCode = ({ code, title, cause, cure }: CodeEntry & { code: string }, style: PageStyle): string =>
  [
    bold(paragraph(`${code}: ${title}`, style), style),
    paragraph(cause, style, '  Why: ', '    '),
    paragraph(cure, style, '  Do: ', '    '),
  ].join('\n');

const levels = ({ findings, family, unit }: Vocabulary): FindingDef[] => [
  ...findings.values(),
  ...family.values(),
  ...unit.values(),
];

function lists(vocabulary: Vocabulary, style: PageStyle): string {
  const groups = vocabulary.groups.flatMap(({ id, title }) => [
    heading(title, style),
    ...levels(vocabulary)
      .filter(({ group }) => group === id)
      .map((def) => row(def.id, def.label, style)),
  ]);
  const codes = Object.entries(CODES).map(([code, { title }]) => row(code, title, style));
  return [
    'Findings, as rules and case files name them',
    ...groups,
    heading('Codes, as they stand in messages', style),
    ...codes,
  ].join('\n');
}

const listsAsData = (vocabulary: Vocabulary) => ({
  findings: levels(vocabulary).map(({ id, per, label, group }) => ({ id, of: per, label, group })),
  codes: Object.entries(CODES).map(([code, { title }]) => ({ code, title })),
});

function unknown(name: string, vocabulary: Vocabulary): ProblemError {
  const near = suggest(name, [...levels(vocabulary).map(({ id }) => id), ...Object.keys(CODES)]);
  const what = `there is neither a finding nor a code "${name}"`;
  return new ProblemError([
    {
      code: 'unknown-finding',
      severity: 'error',
      what,
      why: 'Only names that messages, rules and case files use can be explained.',
      cure: '"mendwise explain" lists them all.',
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}

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
