import type { AnswerEstimates } from '../../decision/answer-model.ts';
import type { Comparison } from '../../decision/questions/compare.ts';
import { formatMoney } from '../../quantities/money.ts';
import { newHoles, yearsRange } from './estimates.ts';
import { STANDING_WORDS, TREATMENT_WORDS } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';

const NAMES = 24;

/** Two answers side by side; one under the other where the page is narrow. */
export function printComparison(name: string, comparison: Comparison, style: PageStyle): string {
  const { before, after, gained, lost, changes } = comparison;
  return [
    paragraph(`${name}: what if`, style),
    ...changes.map(({ label, from, to }) => paragraph(`${label}: ${to}, not ${from}`, style, '  - ')),
    '',
    ...sides('', 'as it is', 'as supposed', style),
    ...sides('Answer', STANDING_WORDS[before.standing], STANDING_WORDS[after.standing], style),
    ...sides('Treatment', treatmentOf(before), treatmentOf(after), style),
    ...sides('Provisional', before.provisional ? 'yes' : 'no', after.provisional ? 'yes' : 'no', style),
    ...figures(before.estimates, after.estimates, style),
    ...list(
      'Reasons gained',
      gained.map(({ because }) => because),
      style,
    ),
    ...list(
      'Reasons lost',
      lost.map(({ because }) => because),
      style,
    ),
    ...(gained.length + lost.length === 0 ? [heading('The reasons stay the same', style)] : []),
  ].join('\n');
}

const treatmentOf = ({ treatment }: Comparison['before']): string =>
  treatment === null ? 'none' : TREATMENT_WORDS[treatment];

function figures(before: AnswerEstimates | null, after: AnswerEstimates | null, style: PageStyle): string[] {
  const rows: readonly (readonly [string, (estimates: AnswerEstimates) => string])[] = [
    ['Next repair due in', ({ life_years }) => yearsRange(life_years)],
    ['New holes in old cloth', (estimates) => newHoles(estimates).toLocaleString('en-US')],
    ['Hours of work', ({ hours }) => `${Math.round(hours.low)} to ${Math.round(hours.high)}`],
    [
      'Price',
      ({ price }) =>
        `${formatMoney(price.low, price.currency)} to ${formatMoney(price.high, price.currency)}`,
    ],
  ];
  const say = (estimates: AnswerEstimates | null, how: (estimates: AnswerEstimates) => string): string =>
    estimates === null ? 'none' : how(estimates);
  return rows.flatMap(([name, how]) => sides(name, say(before, how), say(after, how), style));
}

function sides(name: string, left: string, right: string, style: PageStyle): string[] {
  const column = Math.floor((style.width - NAMES - 4) / 2);
  if (column < 20) return [`  ${name}`, `    as it is:    ${left}`, `    as supposed: ${right}`];
  return [`  ${name.padEnd(NAMES)}${left.padEnd(column)}  ${right}`.trimEnd()];
}

const list = (name: string, all: readonly string[], style: PageStyle): string[] =>
  all.length === 0 ? [] : [heading(name, style), ...all.map((text) => paragraph(text, style, '  - '))];
