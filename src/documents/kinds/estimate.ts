import type { Way } from '../../decision/answer-model.ts';
import { isSafe, isSeenInHand } from '../../decision/safety.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, hoursBetween, quarters, sentenceCase } from '../phrases.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { decidedSection, pricedNote, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { isHazardous, safetySection, unsafeReason } from '../sections/safety.ts';
import { materialsSection } from '../sections/work-rows.ts';
import { frame, type Kind } from './frame.ts';

/** What the work would cost, in what stages, on what terms. */
export const estimate: Kind = {
  name: 'estimate',
  summary: 'hours, materials, price and terms of the treatment chosen or recommended',
  questions: false,
  unfit: (doc) => (isHazardous(doc) ? unsafeReason(doc) : unagreed(doc, 'nothing to price', 'it is priced')),
  write(doc) {
    const { way } = doc;
    const settled = isSettled(doc);
    return frame(
      doc,
      doc.say('estimate.title'),
      [
        ...safetySection(doc),
        ...notBefore(doc),
        ...(way === undefined ? [] : [scope(way, doc), price(way, doc)]),
        ...decidedSection(doc),
        ...sinceApprovalSection(doc),
        hours(doc),
        materialsSection(doc, 'Materials', 'Materials, included in the price'),
        { title: 'What is not included', blocks: [list(doc.items('estimate.not_included'))] },
        { title: 'What may still happen', blocks: [list(doc.items('estimate.risks'))] },
        ...saidSection('How we would work, and on what conditions', way?.conditions ?? []),
        ...saidSection('Take care', forHome((way ?? doc.answer).cautions)),
        ...saidSection('Questions to you', way?.asks ?? []),
        {
          title: 'Terms',
          blocks: [
            list([...(settled ? doc.items('estimate.stands') : []), ...doc.items('estimate.terms')]),
            ...(settled
              ? [{ kind: 'signatures', labels: doc.items('estimate.signatures') } satisfies Block]
              : []),
          ],
        },
      ],
      settled ? 'stands until' : undefined,
    );
  },
};

/** Whether anything still stands before the work: only then is there something to sign and to pay. */
const isSettled = ({ answer, facts }: DocumentContext): boolean =>
  isSafe(answer) && isSeenInHand(facts) && (answer.standing === 'go_ahead' || answer.chosen !== null);

/** What has to be settled before anything is agreed on; left out where nothing has. */
function notBefore(doc: DocumentContext): Section[] {
  if (isSettled(doc)) return [];
  const { answer, papers } = doc;
  const standing = new Set(papers.decision.outcome.standingRules.map(({ id }) => id));
  const first = answer.conditions.filter(({ rule }) => standing.has(rule)).map(({ text }) => clean(text));
  return [
    {
      title: doc.say('estimate.not_before'),
      blocks: [
        paragraph(doc.say('estimate.not_yet')),
        ...(isSeenInHand(doc.facts) ? [] : [paragraph(doc.say('estimate.not_seen'))]),
        ...(first.length === 0 ? [] : [list(first)]),
      ],
    },
  ];
}

const list = (items: readonly string[]): Block => ({ kind: 'list', items });

function scope(way: Way, doc: DocumentContext): Section {
  return {
    title: sentenceCase(doc.treatment(way.treatment)),
    blocks: [
      paragraph(doc.say('estimate.scope')),
      { kind: 'list', items: done(way, doc) },
      ...pricedNote(doc),
    ],
  };
}

function price({ estimates: { price: cost } }: Way, doc: DocumentContext): Section {
  const [low, high, likely] = [cost.low, cost.high, cost.likely].map((amount) => doc.money(amount));
  return {
    title: 'Price',
    blocks: [
      {
        kind: 'paragraph',
        tone: 'lead',
        text: [
          {
            strong: doc.say('estimate.price', { low: low ?? '', high: high ?? '', likely: likely ?? '' }),
          },
        ],
      },
      ...(isSettled(doc) ? [paragraph(doc.say('estimate.approve'))] : []),
      paragraph(
        cost.deposit > 0
          ? doc.say('estimate.deposit', { deposit: doc.money(cost.deposit) })
          : doc.say('estimate.no_deposit'),
      ),
      paragraph(doc.say(cost.hold_point ? 'estimate.hold' : 'estimate.no_hold')),
    ],
  };
}

function hours(doc: DocumentContext): Section {
  const operations = doc.agreed?.estimator.hours();
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
