import type { DocumentContext } from '../document-context.ts';
import { paragraph, type Section } from '../model.ts';
import { hoursBetween, sentenceCase } from '../phrases.ts';
import { forWorkroom, saidSection } from '../sections/choice.ts';
import { decidedSection, isAgreed, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { drawnSection, plannedFastenings, plannedMap } from '../sections/quilt-pictures.ts';
import { unsafeReason } from '../sections/safety.ts';
import { countsSection, materialsSection, rowsSection } from '../sections/work-rows.ts';
import { frame, type Kind } from './frame.ts';

/** For whoever sews: what is done where, what is cut, how long it may take, and what has to come out even. */
export const workOrder: Kind = {
  name: 'work',
  summary: 'what is done row by row, cutting list, hours and counts, for whoever sews',
  questions: false,
  unfit: (doc) => {
    const { agreed, answer } = doc;
    const unsafe = unsafeReason(doc);
    if (unsafe !== undefined) return unsafe;
    if (agreed === undefined) return unagreed(doc, 'no work to order', 'work begins');
    if (agreed.plan.treatment === 'leave') return 'the quilt is left as it is, so there is no work to order';
    if (answer.standing === 'not_yet' && answer.chosen === null)
      return 'the answer is "not yet": what it waits for has to be settled before work begins';
    return undefined;
  },
  write(doc) {
    const { way, agreed } = doc;
    if (way === undefined || agreed === undefined)
      throw new Error('a work order needs work that was agreed on');
    const { plan } = agreed;
    return frame(doc, doc.say('work.title'), [
      {
        title: sentenceCase(doc.treatment(way.treatment)),
        blocks: [
          paragraph(isAgreed(doc) ? doc.say('work.agreed') : [{ strong: doc.say('work.draft') }]),
          { kind: 'list', items: done(way, doc) },
          ...(plan.opens ? [paragraph([{ strong: doc.say('work.hold') }])] : []),
        ],
      },
      ...decidedSection(doc),
      ...sinceApprovalSection(doc),
      ...saidSection(doc.say('work.asks'), way.asks),
      ...saidSection('Take care', forWorkroom(way.cautions)),
      ...saidSection('How we work, and on what conditions', way.conditions),
      ...rowsSection(plan, doc),
      ...drawnSection(doc.say('work.drawn'), [
        plannedMap(doc, 'planned', agreed),
        plannedFastenings(doc, 'fastenings', agreed),
      ]),
      materialsSection(doc, doc.say('work.cutting'), doc.say('work.cutting')),
      hours(doc),
      countsSection(plan, doc),
      {
        title: doc.say('work.signed'),
        blocks: [{ kind: 'signatures', labels: doc.items('work.signatures') }],
      },
    ]);
  },
};

/** Hours step by step, under the names by which they are written down, with room for those worked. */
function hours(doc: DocumentContext): Section {
  const operations = doc.agreed?.estimator.hours().operations ?? [];
  return {
    title: 'Hours',
    blocks: [
      paragraph(doc.say('work.hours')),
      {
        kind: 'table',
        caption: 'Hours, step by step',
        columns: ['Step', 'From and to', 'Worked'],
        rows: operations
          .filter((each) => each.hours.high > 0)
          .map((each) => ({
            name: sentenceCase(each.operation),
            cells: [hoursBetween(each.hours), '______'],
          })),
      },
    ],
  };
}
