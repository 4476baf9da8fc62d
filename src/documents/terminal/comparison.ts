import type { Answer, AnswerEstimates, SinceApproval } from '../../decision/answer-model.ts';
import { wayOf } from '../../decision/choice.ts';
import type { Comparison } from '../../decision/questions/compare.ts';
import { STANDING_WORDS, sayRecommendation, TREATMENT_WORDS } from '../../decision/words.ts';
import { FORECAST_NOTE } from '../../estimates/life/model.ts';
import { decimal } from '../../quantities/measure.ts';
import { formatMoney, whole } from '../../quantities/rounding.ts';
import { sentenceCase } from '../phrases.ts';
import { newHoles, yearsRange } from './estimates.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';

const NAMES = 24;

/** More reasons than this are counted, not told; --json has them all. */
const REASONS_SHOWN = 6;

/** Two answers side by side; one under the other where the page is narrow. */
export function printComparison(name: string, comparison: Comparison, style: PageStyle): string {
  const { before, after, gained, lost, conditions_gained, conditions_lost, changes, same } = comparison;
  return [
    paragraph(`${name}: what if`, style),
    ...changes.map((change) => paragraph(supposed(change), style, '  - ')),
    ...(same ? [heading('This changes nothing: the answer, its reasons and its figures stay', style)] : []),
    ...stillStops(comparison, style),
    '',
    ...(isNarrow(style) ? [] : sides('', 'as it is', 'as supposed', style)),
    ...sides('Answer', STANDING_WORDS[before.standing], STANDING_WORDS[after.standing], style),
    ...sides('Treatment', treatmentOf(before), treatmentOf(after), style),
    ...sides('Provisional', before.provisional ? 'yes' : 'no', after.provisional ? 'yes' : 'no', style),
    ...figures(before.estimates, after.estimates, style),
    ...(before.estimates === null && after.estimates === null ? [] : [paragraph(FORECAST_NOTE, style, '  ')]),
    ...(comparison.no_longer === null || before.treatment === null
      ? []
      : [
          heading(`Why no longer “${TREATMENT_WORDS[before.treatment]}”`, style),
          paragraph(comparison.no_longer, style, '  '),
        ]),
    ...list('Reasons gained', gained.map(because), style),
    ...list('Reasons that no longer count', lost.map(because), style),
    ...(gained.length + lost.length === 0 && !same ? [heading('The reasons stay the same', style)] : []),
    ...list('Conditions and cautions gained', conditions_gained.map(told), style),
    ...list('Conditions and cautions no longer needed', conditions_lost.map(told), style),
  ].join('\n');
}

/** Supposing is no treatment: what to do now is said again, before any figure. */
const stillStops = ({ still_stops: stops }: Comparison, style: PageStyle): string[] =>
  stops.length === 0
    ? []
    : [
        heading('The hazard that is noted goes on stopping the quilt', style),
        ...[
          ...new Set(
            stops.flatMap(({ meanwhile, settled_by }) => [meanwhile ?? [], settled_by ?? []].flat()),
          ),
        ].map((text) => paragraph(text, style, '  - ')),
        paragraph(
          'Supposing or looking again does not lift it; what was done about it does, once "mendwise treated" has it.',
          style,
          '  ',
        ),
      ];

const because = ({ because: text }: Comparison['gained'][number]): string => text;
const told = ({ text }: Comparison['conditions_gained'][number]): string => text;

const supposed = ({ label, from, to }: Comparison['changes'][number]): string =>
  from === to ? `${label}: ${to}, as it is already` : `${label}: ${to} instead of ${from}`;

const treatmentOf = ({ treatment }: Comparison['before']): string =>
  treatment === null ? 'none' : TREATMENT_WORDS[treatment];

function figures(before: AnswerEstimates | null, after: AnswerEstimates | null, style: PageStyle): string[] {
  const rows: readonly (readonly [string, (estimates: AnswerEstimates) => string])[] = [
    ['Next repair due in', ({ life_years }) => yearsRange(life_years)],
    ['New holes in old cloth', (estimates) => whole(newHoles(estimates))],
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

const columnOf = ({ width }: PageStyle): number => Math.floor((width - NAMES - 4) / 2);
const isNarrow = (style: PageStyle): boolean => columnOf(style) < 20;

/** A row of the page, each side broken within its own column. */
function sides(name: string, left: string, right: string, style: PageStyle): string[] {
  if (isNarrow(style))
    return [
      `  ${name}`,
      paragraph(left, style, '    as it is:    '),
      paragraph(right, style, '    as supposed: '),
    ];
  const column = columnOf(style);
  const [mine, theirs] = [left, right].map((text) =>
    paragraph(text, { ...style, width: column }).split('\n'),
  );
  const height = Math.max(mine?.length ?? 0, theirs?.length ?? 0);
  return Array.from({ length: height }, (_, line) =>
    `  ${(line === 0 ? name : '').padEnd(NAMES)}${(mine?.[line] ?? '').padEnd(column)}  ${theirs?.[line] ?? ''}`.trimEnd(),
  );
}

function list(name: string, all: readonly string[], style: PageStyle): string[] {
  if (all.length === 0) return [];
  const rest = all.length - REASONS_SHOWN;
  return [
    heading(name, style),
    ...all.slice(0, REASONS_SHOWN).map((text) => paragraph(text, style, '  - ')),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}

/** More than this is counted, not told; --json has them all. */
const SHOWN = 8;

/** What has changed since an estimate was approved, why, and whether the client has to approve anew. */
export function sinceApprovalRows(answer: Answer, style: PageStyle): string[] {
  const since = answer.since_approval;
  if (since === null) return [];
  const { as_approved: then, changed, gained, lost } = since;
  const other = then.standing !== answer.standing || then.treatment !== answer.treatment;
  return [
    heading(
      `Since the estimate was approved${since.approved_on === null ? '' : ` on ${since.approved_on}`}`,
      style,
    ),
    paragraph(verdict(since, answer), style, '  '),
    ...(other
      ? [
          paragraph(
            `The quilt as it was then known: ${sayRecommendation(then)}. Now: ${sayRecommendation(answer)}.`,
            style,
            '  ',
          ),
        ]
      : []),
    ...firstFew(
      'Found since then:',
      changed.map(({ label, from, to }) => `${label}: ${to}, before ${from}`),
      style,
    ),
    ...firstFew(
      'Reasons gained:',
      gained.map(({ because }) => because),
      style,
    ),
    ...firstFew(
      'Reasons that no longer count:',
      lost.map(({ because }) => because),
      style,
    ),
  ];
}

function verdict(since: SinceApproval, answer: Answer): string {
  const way = wayOf(answer);
  if (way === undefined)
    return 'The work that was approved is no longer advised: tell the client before anything more is sewn.';
  const money = (amount: number): string => formatMoney(amount, way.estimates.price.currency);
  const figures = [
    ...risen('hours', since.hours, (hours) => decimal(hours, 1)),
    ...risen('price', since.price, money),
  ].join('; ');
  if (figures === '') return 'Neither hours nor price were written down with the approval.';
  const mark = Math.round(since.mark * 100);
  const then = since.needs_approval
    ? `That is a rise of more than ${mark} %: new written approval is needed before work goes on.`
    : `No rise of more than ${mark} %: the approval stands.`;
  return `${sentenceCase(figures)}. ${then}`;
}

function risen(name: string, each: SinceApproval['hours'], say: (value: number) => string): string[] {
  if (each === null) return [];
  const share = `${each.rise > 0 ? '+' : ''}${Math.round(each.rise * 100)} %`;
  return [`${name} ${say(each.now)} against ${say(each.approved)} approved (${share})`];
}

function firstFew(name: string, all: readonly string[], style: PageStyle): string[] {
  if (all.length === 0) return [];
  const rest = all.length - SHOWN;
  return [
    paragraph(name, style, '  '),
    ...all.slice(0, SHOWN).map((text) => paragraph(text, style, '  - ')),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}
