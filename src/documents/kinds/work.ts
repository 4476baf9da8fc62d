import { paragraph, type Section } from '../model.ts';
import { hoursBetween, sentenceCase } from '../phrases.ts';
import { forWorkroom, saidSection } from '../sections/choice.ts';
import { decidedSection, isAgreed, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { drawnSection, plannedFastenings, plannedMap } from '../sections/quilt-pictures.ts';
import { unsafeReason } from '../sections/safety.ts';
import { countsSection, materialsSection, rowsSection } from '../sections/work-rows.ts';
import type { Writing } from '../writing.ts';
import { frame, type Kind } from './frame.ts';

/** For whoever sews: what is done where, what is cut, how long it may take, and what has to come out even. */
export const workOrder: Kind = {
  name: 'work',
  summary: 'what is done row by row, cutting list, hours and counts, for whoever sews',
  questions: false,
  unfit: (writing) => {
    const { agreed, answer } = writing;
    const unsafe = unsafeReason(writing);
    if (unsafe !== undefined) return unsafe;
    if (agreed === undefined) return unagreed(writing, 'no work to order', 'work begins');
    if (agreed.plan.treatment === 'leave') return 'the quilt is left as it is, so there is no work to order';
    if (answer.standing === 'not_yet' && answer.chosen === null)
      return 'the answer is "not yet": what it waits for has to be settled before work begins';
    return undefined;
  },
  write(writing) {
    const { way, agreed } = writing;
    if (way === undefined || agreed === undefined)
      throw new Error('a work order needs work that was agreed on');
    const { plan } = agreed;
    return frame(writing, writing.say('work.title'), [
      {
        title: sentenceCase(writing.treatment(way.treatment)),
        blocks: [
          paragraph(isAgreed(writing) ? writing.say('work.agreed') : [{ strong: writing.say('work.draft') }]),
          { kind: 'list', items: done(way, writing) },
          ...(plan.opens ? [paragraph([{ strong: writing.say('work.hold') }])] : []),
        ],
      },
      ...decidedSection(writing),
      ...sinceApprovalSection(writing),
      ...saidSection(writing.say('work.asks'), way.asks),
      ...saidSection('Take care', forWorkroom(way.cautions)),
      ...saidSection('How we work, and on what conditions', way.conditions),
      ...rowsSection(plan, writing),
      ...drawnSection(writing.say('work.drawn'), [
        plannedMap(writing, 'planned', agreed),
        plannedFastenings(writing, 'fastenings', agreed),
      ]),
      materialsSection(writing, writing.say('work.cutting'), writing.say('work.cutting')),
      hours(writing),
      countsSection(plan, writing),
      {
        title: writing.say('work.signed'),
        blocks: [{ kind: 'signatures', labels: writing.items('work.signatures') }],
      },
    ]);
  },
};

/** Hours step by step, under the names by which they are written down, with room for those worked. */
function hours(writing: Writing): Section {
  const operations = writing.agreed?.estimator.hours().operations ?? [];
  return {
    title: 'Hours',
    blocks: [
      paragraph(writing.say('work.hours')),
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
