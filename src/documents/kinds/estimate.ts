import type { Way } from '../../decision/answer-model.ts';
import { isSafe, isSeenInHand } from '../../decision/safety.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, hoursBetween, quarters, sentenceCase } from '../phrases.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { decidedSection, pricedNote, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { isHazardous, safetySection, unsafeReason } from '../sections/safety.ts';
import { materialsSection } from '../sections/work-rows.ts';
import type { Writing } from '../writing.ts';
import { frame, type Kind } from './frame.ts';

/** What the work would cost, in what stages, on what terms. */
export const estimate: Kind = {
  name: 'estimate',
  summary: 'hours, materials, price and terms of the treatment chosen or recommended',
  questions: false,
  unfit: (writing) =>
    isHazardous(writing) ? unsafeReason(writing) : unagreed(writing, 'nothing to price', 'it is priced'),
  write(writing) {
    const { way } = writing;
    const settled = isSettled(writing);
    return frame(
      writing,
      writing.say('estimate.title'),
      [
        ...safetySection(writing),
        ...notBefore(writing),
        ...(way === undefined ? [] : [scope(way, writing), price(way, writing)]),
        ...decidedSection(writing),
        ...sinceApprovalSection(writing),
        hours(writing),
        materialsSection(writing, 'Materials', 'Materials, included in the price'),
        { title: 'What is not included', blocks: [list(writing.items('estimate.not_included'))] },
        { title: 'What may still happen', blocks: [list(writing.items('estimate.risks'))] },
        ...saidSection('How we would work, and on what conditions', way?.conditions ?? []),
        ...saidSection('Take care', forHome((way ?? writing.answer).cautions)),
        ...saidSection('Questions to you', way?.asks ?? []),
        {
          title: 'Terms',
          blocks: [
            list([...(settled ? writing.items('estimate.stands') : []), ...writing.items('estimate.terms')]),
            ...(settled
              ? [{ kind: 'signatures', labels: writing.items('estimate.signatures') } satisfies Block]
              : []),
          ],
        },
      ],
      settled ? 'stands until' : undefined,
    );
  },
};

/** Whether anything still stands before the work: only then is there something to sign and to pay. */
const isSettled = ({ answer, facts }: Writing): boolean =>
  isSafe(answer) && isSeenInHand(facts) && (answer.standing === 'go_ahead' || answer.chosen !== null);

/** What has to be settled before anything is agreed on; left out where nothing has. */
function notBefore(writing: Writing): Section[] {
  if (isSettled(writing)) return [];
  const { answer, papers } = writing;
  const standing = new Set(papers.decision.outcome.standingRules.map(({ id }) => id));
  const first = answer.conditions.filter(({ rule }) => standing.has(rule)).map(({ text }) => clean(text));
  return [
    {
      title: writing.say('estimate.not_before'),
      blocks: [
        paragraph(writing.say('estimate.not_yet')),
        ...(isSeenInHand(writing.facts) ? [] : [paragraph(writing.say('estimate.not_seen'))]),
        ...(first.length === 0 ? [] : [list(first)]),
      ],
    },
  ];
}

const list = (items: readonly string[]): Block => ({ kind: 'list', items });

function scope(way: Way, writing: Writing): Section {
  return {
    title: sentenceCase(writing.treatment(way.treatment)),
    blocks: [
      paragraph(writing.say('estimate.scope')),
      { kind: 'list', items: done(way, writing) },
      ...pricedNote(writing),
    ],
  };
}

function price({ estimates: { price: cost } }: Way, writing: Writing): Section {
  const [low, high, likely] = [cost.low, cost.high, cost.likely].map((amount) => writing.money(amount));
  return {
    title: 'Price',
    blocks: [
      {
        kind: 'paragraph',
        tone: 'lead',
        text: [
          {
            strong: writing.say('estimate.price', { low: low ?? '', high: high ?? '', likely: likely ?? '' }),
          },
        ],
      },
      ...(isSettled(writing) ? [paragraph(writing.say('estimate.approve'))] : []),
      paragraph(
        cost.deposit > 0
          ? writing.say('estimate.deposit', { deposit: writing.money(cost.deposit) })
          : writing.say('estimate.no_deposit'),
      ),
      paragraph(writing.say(cost.hold_point ? 'estimate.hold' : 'estimate.no_hold')),
    ],
  };
}

function hours(writing: Writing): Section {
  const operations = writing.agreed?.estimator.hours();
  const rows = (operations?.operations ?? [])
    .filter((each) => each.hours.high > 0)
    .map((each) => ({
      name: sentenceCase(each.operation),
      cells: [hoursBetween(each.hours), quarters(each.hours.likely)],
    }));
  const total =
    operations === undefined
      ? []
      : [
          {
            name: 'All together',
            cells: [hoursBetween(operations), quarters(operations.likely)],
          },
        ];
  return {
    title: 'Hours',
    blocks: [
      {
        kind: 'table',
        caption: 'Hours, step by step',
        columns: ['Step', 'From and to', 'Likely'],
        rows: [...rows, ...total],
      },
      {
        kind: 'paragraph',
        tone: 'small',
        text: 'From and to leave out the shortest of ten such jobs and the longest. Not every step goes badly at once, so the range of the whole is narrower than its steps added up.',
      },
    ],
  };
}
