import type { Answer } from '../../decision/answer-model.ts';
import { type InterviewResult, saidAt } from '../ask/interview.ts';
import type { Question } from '../ask/question.ts';
import { counted, STANDING_WORDS, sentenceCase, TREATMENT_WORDS } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';

const REASONS = 2;

/** After an interview: what is known, how much is not, where it was written and where the quilt stands. */
export function printSummary(
  result: InterviewResult,
  answer: Answer,
  file: string,
  style: PageStyle,
): string {
  const known = result.questions.flatMap((question) => {
    const said = saidAt(result.answers, question);
    return said === undefined || typeof said === 'object'
      ? []
      : [line(question.label, words(question, said), style)];
  });
  const open = result.questions.length - known.length;
  const what = answer.treatment === null ? '' : `: ${TREATMENT_WORDS[answer.treatment]}`;
  return [
    heading(`${result.case.case}, as far as it is known`, style),
    ...known,
    ...maps(result, style),
    ...(open > 0 ? [`  ${counted(open, 'question')} not answered, which counts as not known.`] : []),
    '',
    paragraph(`Written to ${file}.`, style),
    heading(
      `${sentenceCase(STANDING_WORDS[answer.standing])}${what}${answer.provisional ? ' (provisional)' : ''}`,
      style,
    ),
    ...answer.reasons.slice(0, REASONS).map(({ because }) => paragraph(because, style, '  - ')),
    '',
    `Next: mendwise decide ${result.case.case}`,
  ].join('\n');
}

const line = (label: string, said: string, style: PageStyle): string =>
  paragraph(`${label}: ${said}`, style, '  ', '    ');

/** A choice by its label; everything else in the words it was given in. */
const words = ({ choices }: Question, said: unknown): string =>
  choices.find(({ value }) => value === String(said))?.label ?? String(said).trim();

const maps = ({ case: { survey } }: InterviewResult, style: PageStyle): string[] => {
  const { units, family_map: fabrics } = survey;
  return [
    ...(units === undefined ? [] : [line('map of units', counted(units.flat().length, 'unit'), style)]),
    ...(fabrics === undefined ? [] : [line('map of fabrics', counted(fabrics.flat().length, 'unit'), style)]),
  ];
};
