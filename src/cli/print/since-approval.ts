import type { Answer, SinceApproval } from '../../decision/answer-model.ts';
import { wayOf } from '../../decision/way.ts';
import { decimal } from '../../quantities/measure.ts';
import { formatMoney } from '../../quantities/money.ts';
import { outcomeWords, sentenceCase } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';

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
            `The quilt as it was then known: ${outcomeWords(then)}. Now: ${outcomeWords(answer)}.`,
            style,
            '  ',
          ),
        ]
      : []),
    ...list(
      'Found since then:',
      changed.map(({ label, from, to }) => `${label}: ${to}, before ${from}`),
      style,
    ),
    ...list(
      'Reasons gained:',
      gained.map(({ because }) => because),
      style,
    ),
    ...list(
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

function list(name: string, all: readonly string[], style: PageStyle): string[] {
  if (all.length === 0) return [];
  const rest = all.length - SHOWN;
  return [
    paragraph(name, style, '  '),
    ...all.slice(0, SHOWN).map((text) => paragraph(text, style, '  - ')),
    ...(rest > 0 ? [`  and ${rest} more`] : []),
  ];
}
