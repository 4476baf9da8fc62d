import type { SinceApproval } from '../../decision/answer-model.ts';
import { clean } from '../clean.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { quarters, sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';
import { headline } from './advice.ts';

/** What became of hours, price and answer since the client approved an estimate, and why; left out where none was. */
export function sinceApprovalSection(writing: Writing): Section[] {
  const { answer } = writing;
  const since = answer.since_approval;
  if (since === null) return [];
  const moved =
    since.as_approved.standing !== answer.standing || since.as_approved.treatment !== answer.treatment;
  const found = since.changed.map(({ label, from, to }) =>
    clean(`${sentenceCase(label)}: ${from} then, ${to} now`),
  );
  const blocks = [
    ...figures(since, writing),
    ...(moved
      ? [
          paragraph(
            writing.say('since.moved', {
              before: headline(writing, since.as_approved),
              now: headline(writing, answer),
            }),
          ),
        ]
      : []),
    ...headed(writing.say('since.found'), found),
    ...headed(
      writing.say('since.gained'),
      since.gained.map(({ because }) => clean(because)),
    ),
    ...headed(
      writing.say('since.lost'),
      since.lost.map(({ because }) => clean(because)),
    ),
    ...verdict(since, writing),
  ];
  return blocks.length === 0 ? [] : [{ title: writing.say('since.title'), blocks }];
}

function figures({ hours, price }: SinceApproval, writing: Writing): Block[] {
  const rows = [
    ...(hours === null ? [] : [{ name: 'Hours', cells: [quarters(hours.approved), quarters(hours.now)] }]),
    ...(price === null
      ? []
      : [{ name: 'Price', cells: [writing.money(price.approved), writing.money(price.now)] }]),
  ];
  if (rows.length === 0) return [];
  return [{ kind: 'table', caption: 'Approved, and likely now', columns: ['What', 'Approved', 'Now'], rows }];
}

function verdict({ hours, price, needs_approval: again }: SinceApproval, writing: Writing): Block[] {
  if (writing.way === undefined) return [paragraph(writing.say('since.no_work'))];
  if (hours === null && price === null) return [];
  return [paragraph(writing.say(again ? 'estimate.approve_again' : 'estimate.approved_still'))];
}

const headed = (text: string, items: readonly string[]): Block[] =>
  items.length === 0
    ? []
    : [
        { kind: 'subheading', text },
        { kind: 'list', items },
      ];
